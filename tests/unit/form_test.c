/* Forms as browsers send them: the URL Standard's application/x-www-form-urlencoded (WHATWG,
 * section 5) and RFC 7578, both from memory; the bytes below are written by hand. */
#include "page/form.h"

#include "becket_test.h"

#include <string.h>

static bool
read(const char *words, struct arena *arena, struct form *form, struct fault *fault)
{
	return form_read(words, strlen(words), arena, form, fault);
}

TEST(fields_are_read_in_order_with_their_escapes_undone)
{
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	struct fault fault = {0};
	assert_true(
	    read("a=1+2&b%2Ec=%C3%A9%26&empty=&bare&a=second", &arena, &form, &fault));
	assert_int_equal(form.count, 5);
	assert_string_equal(form_value(&form, "a"), "1 2");
	assert_string_equal(form_value(&form, "b.c"), "é&");
	assert_string_equal(form_value(&form, "empty"), "");
	assert_string_equal(form_value(&form, "bare"), "");
	assert_null(form_value(&form, "c"));
	assert_string_equal(form.items[4].value, "second");
}

TEST(an_escape_that_is_none_stays_as_it_is)
{
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	struct fault fault = {0};
	assert_true(read("a=100%&b=%zz&c=%4", &arena, &form, &fault));
	assert_string_equal(form_value(&form, "a"), "100%");
	assert_string_equal(form_value(&form, "b"), "%zz");
	assert_string_equal(form_value(&form, "c"), "%4");
}

TEST(a_zero_byte_or_broken_utf_8_is_refused)
{
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	struct fault fault = {0};
	assert_false(read("a=x%00y", &arena, &form, &fault));
	assert_false(read("a=%C3", &arena, &form, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
}

TEST(a_hundred_thousand_fields_are_refused)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT words = {0};
	struct form form = {0};
	struct fault fault = {0};
	for (int i = 0; i < 100000; i++) {
		text_add(&words, "a=1&");
	}
	assert_false(form_read(text_string(&words), words.length, &arena, &form, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_true(form.count <= FORM_FIELDS_MOST);
}

TEST(lines_of_a_text_end_as_the_program_has_them)
{
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	struct fault fault = {0};
	assert_true(read("note=one%0D%0Atwo%0Athree%0D", &arena, &form, &fault));
	assert_string_equal(form_value(&form, "note"), "one\ntwo\nthree\r");
}

TEST(what_is_behind_a_prefix_is_the_tag)
{
	struct form_field field = {.name = "packed.LJ-3"};
	assert_string_equal(form_rest(&field, "packed."), "LJ-3");
	assert_null(form_rest(&field, "done."));
}

TEST(an_escaped_value_is_read_back_as_it_was)
{
	SCOPED_TEXT escaped = {0};
	SCOPED_TEXT back = {0};
	form_escape("Port Marrin/é&?#%+", &escaped);
	assert_string_equal(
	    text_string(&escaped), "Port%20Marrin%2F%C3%A9%26%3F%23%25%2B");
	form_unescape(text_string(&escaped), escaped.length, true, &back);
	assert_string_equal(text_string(&back), "Port Marrin/é&?#%+");
}

static const char TYPE[] = "multipart/form-data; boundary=----Ab1";

/* Reads parts; zero bytes may be in them. */
static bool
read_parts(const char *bytes, size_t length, struct arena *arena, struct form *form)
{
	struct fault fault = {0};
	SCOPED_TEXT body = {0};
	text_add_bytes(&body, bytes, length);
	bool done = form_read_parts(TYPE, &body, arena, form, &fault);
	for (size_t i = 0; done && i < form->count; i++) {
		/* the body goes with this function */
		form->items[i].bytes = NULL;
	}
	assert_true(done || fault.kind == FAULT_INPUT);
	return done;
}

TEST(a_form_with_a_file_has_its_text_and_its_bytes)
{
	static const char BYTES[] =
	    "------Ab1\r\nContent-Disposition: form-data; name=\"on\"\r\n\r\n9 Dec 2026\r\n"
	    "------Ab1\r\nContent-Disposition: form-data; name=\"photo\"; "
	    "filename=\"C:\\pictures\\..\\paper.jpg\"\r\nContent-Type: image/jpeg\r\n\r\n"
	    "\x00\xff\r\n--no boundary\r\n------Ab1--\r\n";
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	struct fault fault = {0};
	SCOPED_TEXT body = {0};
	text_add_bytes(&body, BYTES, sizeof BYTES - 1);
	assert_true(form_read_parts(TYPE, &body, &arena, &form, &fault));
	const struct form_field *photo = form_file(&form, "photo");
	assert_int_equal(form.count, 2);
	assert_string_equal(form_value(&form, "on"), "9 Dec 2026");
	assert_non_null(photo);
	assert_string_equal(photo->file_name, "paper.jpg");
	assert_int_equal(photo->length, 17);
	assert_memory_equal(photo->bytes, "\x00\xff\r\n--no boundary", 17);
	assert_null(form_value(&form, "photo"));
}

TEST(a_field_of_a_file_in_which_none_was_chosen_is_no_file)
{
	static const char BYTES[] =
	    "------Ab1\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"\"\r\n"
	    "Content-Type: application/octet-stream\r\n\r\n\r\n------Ab1--\r\n";
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	assert_true(read_parts(BYTES, sizeof BYTES - 1, &arena, &form));
	assert_int_equal(form.count, 1);
	assert_null(form_file(&form, "photo"));
}

TEST(parts_that_are_cut_anywhere_are_refused)
{
	static const char BYTES[] =
	    "------Ab1\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\n1\r\n------Ab1--";
	for (size_t length = 0; length < sizeof BYTES - 1; length++) {
		SCOPED_ARENA arena = {0};
		struct form form = {0};
		assert_false(read_parts(BYTES, length, &arena, &form));
	}
	SCOPED_ARENA arena = {0};
	struct form form = {0};
	assert_true(read_parts(BYTES, sizeof BYTES - 1, &arena, &form));
}

RUN_TESTS(NULL, NULL)
