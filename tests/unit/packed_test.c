/* What is packed at build is what libcyaml reads of the same YAML, file by file: libcyaml
 * itself writes both out again, and the texts are the same. */
#include "becket_test.h"
#include "desk/shelf.h"
#include "rules/sheet_inside.h"
#include "rules/yaml_inside.h"

#include <sodium.h>
#include <stdlib.h>
#include <string.h>

static struct yaml_source
source_of(size_t index)
{
	assert_string_equal(EMBEDDED_DATA[index].name, EMBEDDED_PACKED[index].name);
	return (struct yaml_source){EMBEDDED_DATA[index].name, EMBEDDED_DATA[index].bytes,
	    EMBEDDED_DATA[index].length, EMBEDDED_PACKED[index].bytes,
	    EMBEDDED_PACKED[index].length};
}

/* What libcyaml writes of it; free() it. */
static char *
written(void *loaded, size_t *length)
{
	const cyaml_config_t config = {.mem_fn = cyaml_mem, .log_level = CYAML_LOG_ERROR};
	char *text = NULL;
	assert_int_equal(
	    cyaml_save_data(&text, length, &config, &SHEET_SCHEMA, loaded, 0), CYAML_OK);
	return text;
}

TEST(each_sheet_that_is_carried_is_packed_as_its_YAML_says)
{
	int sheets = 0;
	assert_int_equal(EMBEDDED_DATA_COUNT, EMBEDDED_PACKED_COUNT);
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		struct yaml_source source = source_of(i);
		struct yaml_source plain = {
		    source.name, source.bytes, source.length, NULL, 0};
		struct fault fault = {0};
		struct yaml_loaded packed = {0};
		struct yaml_loaded read = {0};
		size_t lengths[2];
		if (strcmp(source.name, "kinds.yaml") == 0) {
			continue;
		}
		assert_true(yaml_packed_load(&source, &SHEET_SCHEMA, &packed));
		assert_true(yaml_source_load(&plain, &SHEET_SCHEMA, &read, &fault));
		char *one = written(packed.values, &lengths[0]);
		char *other = written(read.values, &lengths[1]);
		assert_int_equal(lengths[0], lengths[1]);
		assert_true(lengths[0] > 1000);
		assert_memory_equal(one, other, lengths[0]);
		free(one);
		free(other);
		yaml_loaded_free(&SHEET_SCHEMA, &packed);
		yaml_loaded_free(&SHEET_SCHEMA, &read);
		sheets++;
	}
	assert_int_equal(sheets, 14); /* as many as data/sheets has */
}

TEST(the_kinds_that_are_carried_are_packed_as_their_YAML_says)
{
	size_t at = 0;
	while (strcmp(EMBEDDED_DATA[at].name, "kinds.yaml") != 0) {
		at++;
	}
	struct yaml_source source = source_of(at);
	const struct packed_file file = {source.name, source.bytes, source.length,
	    source.packed, source.packed_length};
	struct kinds *packed = NULL;
	struct kinds *read = NULL;
	struct fault fault = {0};
	assert_true(kinds_read_packed(&file, &packed, &fault));
	assert_true(kinds_read(file.name, file.yaml, file.length, &read, &fault));
	assert_int_equal(kinds_count(packed), kinds_count(read));
	for (size_t i = 0; i < kinds_count(read); i++) {
		const struct kind *one = kinds_at(packed, i);
		const struct kind *other = kinds_at(read, i);
		assert_string_equal(one->id, other->id);
		assert_string_equal(one->name, other->name);
		assert_string_equal(one->group, other->group);
		assert_int_equal(one->hazard, other->hazard);
		assert_int_equal(one->subject, other->subject);
		assert_int_equal(one->inside, other->inside);
		assert_int_equal(one->service_ashore, other->service_ashore);
		assert_int_equal(one->working_part_count, other->working_part_count);
		assert_int_equal(one->synonym_count, other->synonym_count);
		for (size_t j = 0; j < one->synonym_count; j++) {
			assert_string_equal(one->synonyms[j], other->synonyms[j]);
		}
	}
	kinds_free(packed);
	kinds_free(read);
}

/* Each is one byte or more away from what the schema of a sheet has. */
TEST(what_is_packed_and_no_sheet_is_read_from_its_YAML_instead)
{
#define PACKED(literal)                                                                  \
	{                                                                                \
		literal, sizeof literal - 1                                              \
	}

	static const struct {
		const char *packed;
		size_t length;
	} ROWS[] = {
	    PACKED(""),
	    PACKED("s"),
	    PACKED("m"),
	    PACKED("m9\0sid\0"),
	    PACKED("m1\0sno-such-key\0sx\0"),
	    PACKED("m1\0stitle\0l0\0"),
	    PACKED("m2\0stitle\0sa\0stitle\0sb\0"),
	    PACKED("m1\0stitle\0sx\0"),
	    PACKED("m1\0srules\0l4000000000\0"),
	    PACKED("l0\0"),
	};

#undef PACKED
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct yaml_source source = {
		    "t.yaml", "", 0, ROWS[i].packed, ROWS[i].length};
		struct yaml_loaded loaded = {0};
		assert_false(yaml_packed_load(&source, &SHEET_SCHEMA, &loaded));
		assert_null(loaded.values);
	}
}

/* Dates kept in a book say by which figures they were reckoned: libsodium's digest of
 * them, in this order. */
TEST(the_digest_made_at_build_is_that_of_what_is_carried)
{
	crypto_generichash_state hash;
	unsigned char bytes[32];
	char digits[2 * sizeof bytes + 1];
	struct shelf shelf = {.folder = ""};
	struct fault fault = {0};
	SCOPED_TEXT digest = {0};
	assert_true(sodium_init() >= 0);
	(void)crypto_generichash_init(&hash, NULL, 0, sizeof bytes);
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		const struct embedded_file *file = &EMBEDDED_DATA[i];
		(void)crypto_generichash_update(
		    &hash, (const unsigned char *)file->name, strlen(file->name) + 1);
		(void)crypto_generichash_update(
		    &hash, (const unsigned char *)file->bytes, file->length);
	}
	(void)crypto_generichash_final(&hash, bytes, sizeof bytes);
	assert_true(shelf_digest(&shelf, NULL, 0, &digest, &fault));
	assert_string_equal(text_string(&digest),
	    sodium_bin2hex(digits, sizeof digits, bytes, sizeof bytes));
}

RUN_TESTS(NULL, NULL)
