/* Packs a YAML file at build, so that the program does not scan its own sheets again at each
 * command (rules/kinds.h has the form).
 *
 *   yaml_pack FILE.yaml FILE.packed */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <yaml.h>

static void
fail(const char *file, const char *why)
{
	(void)fprintf(stderr, "%s: %s\n", file, why);
	exit(1);
}

/* A mapping's children are its keys and values by turns. */
static size_t
count_of(const yaml_node_t *node)
{
	bool mapping = node->type == YAML_MAPPING_NODE;
	return mapping ? (size_t)(node->data.mapping.pairs.top -
				  node->data.mapping.pairs.start)
		       : (size_t)(node->data.sequence.items.top -
				  node->data.sequence.items.start);
}

static void
pack(yaml_document_t *document, int index, FILE *out)
{
	const yaml_node_t *node = yaml_document_get_node(document, index);
	if (node->type == YAML_SCALAR_NODE) {
		(void)fprintf(out, "s%s", (const char *)node->data.scalar.value);
		(void)fputc('\0', out);
		return;
	}
	bool mapping = node->type == YAML_MAPPING_NODE;
	size_t count = count_of(node);
	(void)fprintf(out, "%c%zu", mapping ? 'm' : 'l', count);
	(void)fputc('\0', out);
	for (size_t i = 0; i < count; i++) {
		if (mapping) {
			const yaml_node_pair_t *pair = &node->data.mapping.pairs.start[i];
			pack(document, pair->key, out);
			pack(document, pair->value, out);
		} else {
			pack(document, node->data.sequence.items.start[i], out);
		}
	}
}

int
main(int argc, char *argv[])
{
	yaml_parser_t parser;
	yaml_document_t document;
	FILE *in = argc == 3 ? fopen(argv[1], "rb") : NULL;
	FILE *out = in != NULL ? fopen(argv[2], "wb") : NULL;
	if (out == NULL || yaml_parser_initialize(&parser) == 0) {
		fail(argc > 1 ? argv[1] : "yaml_pack", "can't be opened");
	}
	yaml_parser_set_input_file(&parser, in);
	if (yaml_parser_load(&parser, &document) == 0 ||
	    yaml_document_get_root_node(&document) == NULL) {
		fail(argv[1], "no valid YAML");
	}
	pack(&document, 1, out);
	yaml_document_delete(&document);
	yaml_parser_delete(&parser);
	(void)fclose(in);
	if (fclose(out) != 0) {
		fail(argv[2], "can't be written");
	}
	return 0;
}
