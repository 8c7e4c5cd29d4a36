#include "book/rows.h"

#include <assert.h>
#include <string.h>

void
text_add_json(struct text *out, const char *string)
{
	text_add_byte(out, '"');
	for (const char *at = string; *at != '\0'; at++) {
		unsigned char byte = (unsigned char)*at;
		bool told = byte < ' ' || byte == '"' || byte == '\\';
		if (told) {
			text_add_format(out, "\\u%04x", byte);
		} else {
			text_add_byte(out, *at);
		}
	}
	text_add_byte(out, '"');
}

void
row_list_clear(struct row_list *list)
{
	text_clear(&list->json);
	*list = (struct row_list){0};
}

void
row_list_row(struct row_list *list)
{
	text_add(&list->json, list->count++ == 0 ? "[[" : "],[");
}

/* A comma before every value of a row but the first. */
static void
add_comma(struct row_list *list)
{
	if (list->json.bytes[list->json.length - 1] != '[') {
		text_add_byte(&list->json, ',');
	}
}

void
row_list_text(struct row_list *list, const char *text)
{
	add_comma(list);
	text_add_json(&list->json, text);
}

void
row_list_int(struct row_list *list, int64_t value)
{
	add_comma(list);
	text_add_format(&list->json, "%lld", (long long)value);
}

void
give_list(struct call *call, struct row_list *list)
{
	text_add(&list->json, list->count == 0 ? "[]" : "]]");
	give_text(call, text_string(&list->json));
}

bool
row_list_run(struct row_list *list, struct book *book, enum statement statement,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (list->count == 0) {
		return true;
	}
	if (!call_open(book, statement, &call, fault)) {
		return false;
	}
	give_list(&call, list);
	call.listed = list->count;
	bool run = call_run(&call, fault);
	text_reset(&list->json);
	list->count = 0;
	return run;
}

void
give_words(struct call *call, const char *const *words, size_t count)
{
	SCOPED_TEXT json = {0};
	for (size_t i = 0; i < count; i++) {
		text_add_byte(&json, i == 0 ? '[' : ',');
		text_add_json(&json, words[i]);
	}
	text_add(&json, count == 0 ? "[]" : "]");
	give_copy(call, text_string(&json));
}

/* Words a statement that adds one row anew, for ROWS_MANY. Its parameters have no names: SQLite
 * looks for each name among all before it. */
static void
word_many(const char *one, struct text *out)
{
	static const char VALUES[] = " VALUES ";
	const char *values = strstr(one, VALUES);
	assert(values != NULL);
	const char *first = values + strlen(VALUES);
	const char *end = first + strcspn(first, ")");
	text_add_bytes(out, one, (size_t)(first - one));
	for (int i = 0; i < ROWS_MANY; i++) {
		text_add(out, i == 0 ? "" : ", ");
		for (const char *at = first; at < end; at += strcspn(at, ",)") + 1) {
			text_add(out, at == first ? "(?" : ", ?");
		}
		text_add_byte(out, ')');
	}
	text_add(out, end + 1);
}

bool
call_open_many(struct book *book, enum statement statement, struct call *call_out,
    struct fault *fault)
{
	const struct statement_text *one = statement_text(statement);
	assert(book->reading == NULL);
	if (book->many == NULL || book->many_of != statement) {
		SCOPED_TEXT sql = {0};
		word_many(one->sql, &sql);
		prepared_drop(book->many);
		book->many = database_prepare(book->database, text_string(&sql), true);
		book->many_of = statement;
	}
	if (book->many == NULL) {
		return database_fault(book->database, fault);
	}
	*call_out = (struct call){.book = book,
	    .prepared = book->many,
	    .rows = one->rows == ROWS_ONE ? ROWS_LISTED : ROWS_LISTED_AT_MOST,
	    .listed = ROWS_MANY,
	    .text = one->sql};
	return true;
}
