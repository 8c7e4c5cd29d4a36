/* The numbers of added rows: read once in a transaction, counted up in memory, and
 * written with the revision at its end. */
#include "base/text.h"
#include "book/rows.h"

#include <stdlib.h>
#include <string.h>

#define NAME_OF(id, table, ...) table,

static const char *const TABLES_NUMBERED[] = {
    BOOK_TABLES(NAME_OF, FIELD_NOTHING, NAME_OF, FIELD_NOTHING)};

/* The table of a name that is not ended by a zero byte. */
static enum numbered
numbered_by(const char *name, size_t length)
{
	unsigned of = 0;
	while (of < NUMBERED_ENTRY && (strncmp(TABLES_NUMBERED[of], name, length) != 0 ||
					  TABLES_NUMBERED[of][length] != '\0')) {
		of++;
	}
	return (enum numbered)of;
}

/* Reads "vessel=3 item=41"; false for anything else. */
static bool
read_words(const char *at, int64_t *numbers)
{
	for (int of = 0; of < NUMBERED_ENTRY; of++) {
		numbers[of] = 1;
	}
	while (*at != '\0') {
		size_t length = strcspn(at, "=");
		enum numbered of = numbered_by(at, length);
		char *end = NULL;
		if (of == NUMBERED_ENTRY || at[length] != '=') {
			return false;
		}
		numbers[of] = strtoll(at + length + 1, &end, 10);
		if (numbers[of] < 1 || numbers[of] == INT64_MAX ||
		    (*end != ' ' && *end != '\0')) {
			return false;
		}
		at = end + (*end == ' ');
	}
	return true;
}

/* Reads the numbers; where their text makes no sense, as if the tables had no row. */
static bool
read_numbers(
    struct book *book, int64_t *revision_out, bool *sense_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, NUMBERS_GET, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return false;
	}
	*revision_out = row ? take_int(&call) : 0;
	struct value words = row ? take_value(&call) : (struct value){0};
	*sense_out = words.bytes != NULL && read_words(words.bytes, book->numbers);
	if (!*sense_out) {
		(void)!read_words("", book->numbers);
	}
	book->numbers[NUMBERED_ENTRY] = row ? take_int(&call) : 1;
	book->numbered = true;
	return true;
}

bool
numbers_read(struct book *book, int64_t *revision_out, struct fault *fault)
{
	bool sense = false;
	return read_numbers(book, revision_out, &sense, fault) &&
	       (sense ||
		   fault_set(fault, FAULT_BOOK,
		       "the next numbers of the book's rows are damaged; \"becket book "
		       "check\" looks the book over"));
}

bool
number_coming(struct book *book, enum numbered of, int64_t *out, struct fault *fault)
{
	int64_t revision = 0;
	if (!book->numbered && !numbers_read(book, &revision, fault)) {
		return false;
	}
	*out = book->numbers[of];
	return true;
}

bool
number_next(struct book *book, enum numbered of, int64_t *out, struct fault *fault)
{
	if (!number_coming(book, of, out, fault)) {
		return false;
	}
	book->numbers[of]++;
	return true;
}

bool
number_give(struct call *call, enum numbered of, int64_t *out, struct fault *fault)
{
	if (!number_next(call->book, of, out, fault)) {
		return false;
	}
	give_int(call, *out);
	return true;
}

void
numbers_give(struct call *call)
{
	SCOPED_TEXT words = {0};
	if (!call->book->numbered) {
		give_null(call);
		return;
	}
	for (int of = 0; of < NUMBERED_ENTRY; of++) {
		if (call->book->numbers[of] > 1) {
			text_add_format(&words, "%s%s=%lld", words.length > 0 ? " " : "",
			    TABLES_NUMBERED[of], (long long)call->book->numbers[of]);
		}
	}
	give_copy(call, text_string(&words));
}

bool
numbers_renew(struct book *book, bool *off_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_ARENA arena = {0};
	int64_t revision = 0;
	bool sense = false;
	bool row = true;
	if (!read_numbers(book, &revision, &sense, fault) ||
	    !call_open(book, NUMBERS_FOUND, &call, fault)) {
		return false;
	}
	*off_out = !sense;
	while (call_row(&call, &row, fault) && row) {
		const char *table = take_text(&call, &arena);
		enum numbered of = numbered_by(table, strlen(table));
		int64_t last = take_int(&call);
		if (of != NUMBERED_ENTRY && book->numbers[of] <= last) {
			book->numbers[of] = last + 1;
			*off_out = true;
		}
	}
	return !row;
}

bool
add_named(struct book *book, enum statement add, enum numbered of, const char *name,
    int64_t *id_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, add, &call, fault) ||
	    !number_give(&call, of, id_out, fault)) {
		return false;
	}
	give_text(&call, name);
	return call_run(&call, fault);
}
