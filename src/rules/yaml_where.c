#include "rules/yaml_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

/* The text as libyaml's tree, which knows the line of every node. */
struct tree {
	yaml_parser_t parser;
	yaml_document_t document;
	bool has_parser;
	bool has_document;
};

static void
tree_clear(struct tree *tree)
{
	if (tree->has_document) {
		yaml_document_delete(&tree->document);
	}
	if (tree->has_parser) {
		yaml_parser_delete(&tree->parser);
	}
}

static bool
tree_load(struct tree *tree, const struct yaml_source *source)
{
	tree->has_parser = yaml_parser_initialize(&tree->parser) != 0;
	if (!tree->has_parser) {
		return false;
	}
	yaml_parser_set_input_string(
	    &tree->parser, (const unsigned char *)source->bytes, source->length);
	tree->has_document = yaml_parser_load(&tree->parser, &tree->document) != 0;
	return tree->has_document;
}

/* One step of a path: its length, up to the next slash. */
static size_t
step_length(const char *path)
{
	return strcspn(path, "/");
}

static const yaml_node_t *
step_into_mapping(yaml_document_t *document, const yaml_node_t *node, const char *step,
    int occurrence, unsigned long *line)
{
	size_t length = step_length(step);
	const yaml_node_t *found = NULL;
	for (const yaml_node_pair_t *pair = node->data.mapping.pairs.start;
	     pair < node->data.mapping.pairs.top; pair++) {
		const yaml_node_t *key = yaml_document_get_node(document, pair->key);
		if (key == NULL || key->type != YAML_SCALAR_NODE ||
		    key->data.scalar.length != length ||
		    memcmp(key->data.scalar.value, step, length) != 0) {
			continue;
		}
		*line = key->start_mark.line + 1;
		found = yaml_document_get_node(document, pair->value);
		occurrence--;
		if (occurrence <= 0) {
			return found;
		}
	}
	return found;
}

static const yaml_node_t *
step_into_sequence(yaml_document_t *document, const yaml_node_t *node, const char *step,
    unsigned long *line)
{
	size_t count =
	    (size_t)(node->data.sequence.items.top - node->data.sequence.items.start);
	unsigned long wanted = strtoul(step, NULL, 10);
	if (wanted < 1 || wanted > count) {
		return NULL;
	}
	const yaml_node_t *found =
	    yaml_document_get_node(document, node->data.sequence.items.start[wanted - 1]);
	if (found != NULL) {
		*line = found->start_mark.line + 1;
	}
	return found;
}

static unsigned long
walk(yaml_document_t *document, const char *path, int occurrence)
{
	unsigned long line = 1;
	const yaml_node_t *node = yaml_document_get_root_node(document);
	while (node != NULL && *path != '\0') {
		size_t length = step_length(path);
		bool last = path[length] == '\0';
		switch (node->type) {
		case YAML_MAPPING_NODE:
			node = step_into_mapping(
			    document, node, path, last ? occurrence : 1, &line);
			break;
		case YAML_SEQUENCE_NODE:
			node = step_into_sequence(document, node, path, &line);
			break;
		case YAML_NO_NODE:
		case YAML_SCALAR_NODE:
			node = NULL;
			break;
		}
		path += length + (last ? 0 : 1);
	}
	return line;
}

struct yaml_where
yaml_where_find(const struct yaml_source *source, const char *path, int occurrence)
{
	struct yaml_where place = {.found = YAML_WHERE_FOUND, .line = 1};
	struct tree tree = {0};
	if (tree_load(&tree, source)) {
		place.line = walk(&tree.document, path, occurrence);
	} else if (tree.has_parser && tree.parser.problem != NULL) {
		place.found = YAML_WHERE_BROKEN;
		place.line = tree.parser.problem_mark.line + 1;
		(void)snprintf(
		    place.problem, sizeof place.problem, "%s", tree.parser.problem);
	}
	tree_clear(&tree);
	return place;
}
