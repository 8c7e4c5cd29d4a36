/* Papers kept with the gear. Their bytes are read one at a time and only when asked for. */
#include "book/putting.h"
#include "book/rows.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>

enum { DIGEST_SIZE = 2 * crypto_hash_sha256_BYTES + 1 };

/* SHA-256 (FIPS 180-4) in hexadecimal digits. */
static void
digest(const char *bytes, size_t length, char out[DIGEST_SIZE])
{
	unsigned char raw[crypto_hash_sha256_BYTES];
	int ready = sodium_init();
	assert(ready >= 0 && "a system with a source of random numbers");
	(void)crypto_hash_sha256(raw, (const unsigned char *)bytes, length);
	(void)sodium_bin2hex(out, DIGEST_SIZE, raw, sizeof raw);
}

static bool
check(const struct paper *paper, size_t length, struct fault *fault)
{
	if (length == 0) {
		return fault_set(fault, FAULT_INPUT, "the file is empty");
	}
	if (length > PAPER_LARGEST) {
		return fault_set(fault, FAULT_INPUT,
		    "it has %zu bytes; a paper may have %d (10 MiB)", length,
		    PAPER_LARGEST);
	}
	return name_check("its name", paper->name, fault);
}

/* The record it is to belong to: its number, or 0 for none. */
static bool
find_owner(struct book *book, int64_t item, const struct record *record, int64_t *id_out,
    struct fault *fault)
{
	*id_out = 0;
	if (record == NULL) {
		return true;
	}
	if (!record_find(book, item, record, id_out, fault)) {
		return false;
	}
	return *id_out != 0 ||
	       fault_set(fault, FAULT_INPUT, "there is no such record of this item");
}

static bool
find_same(struct book *book, int64_t item, const char *sha256, int64_t *id_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, PAPER_FIND, &call, fault)) {
		return false;
	}
	give_int(&call, item);
	give_text(&call, sha256);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*id_out = row ? take_int(&call) : 0;
	return true;
}

/* Put again, perhaps with a record or a note that it did not have. */
static bool
fill(struct book *book, int64_t id, int64_t record, const char *note, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, PAPER_FILL, &call, fault)) {
		return false;
	}
	record != 0 ? give_int(&call, record) : give_null(&call);
	give_text(&call, note[0] != '\0' ? note : NULL);
	give_int(&call, id);
	return call_run(&call, fault);
}

/* A paper on its way into the book. */
struct putting {
	const struct paper *paper;
	const char *bytes;
	size_t length;
	int64_t item;
	int64_t record; /* 0 for none */
	char sha256[DIGEST_SIZE];
};

static bool
put_bytes(struct book *book, const struct putting *putting, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, PAPER_BYTES_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, putting->sha256);
	give_bytes(&call, putting->bytes, putting->length);
	return call_run(&call, fault);
}

static bool
insert(struct book *book, const struct putting *putting, int64_t *id_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!put_bytes(book, putting, fault) ||
	    !call_open(book, PAPER_ADD, &call, fault) ||
	    !number_give(&call, NUMBERED_PAPER, id_out, fault)) {
		return false;
	}
	give_int(&call, putting->item);
	putting->record != 0 ? give_int(&call, putting->record) : give_null(&call);
	give_text(&call, putting->paper->name);
	give_text(&call, putting->paper->media_type);
	give_text(&call, putting->paper->note);
	give_day(&call, putting->paper->added);
	give_int(&call, (int64_t)putting->length);
	give_text(&call, putting->sha256);
	give_bytes(&call, "", 0); /* they stand in paper_bytes */
	return call_run(&call, fault);
}

static bool
put(struct book *book, const struct record *record, struct putting *putting,
    struct paper_put *out, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	int64_t same = 0;
	int64_t number = 0;
	if (!check(putting->paper, putting->length, fault)) {
		return false;
	}
	digest(putting->bytes, putting->length, putting->sha256);
	if (!writing_begin(book, &writing, fault) ||
	    !item_need(book, putting->paper->tag, &putting->item, fault) ||
	    !find_owner(book, putting->item, record, &putting->record, fault) ||
	    !find_same(book, putting->item, putting->sha256, &same, fault)) {
		return false;
	}
	bool written =
	    same != 0 ? fill(book, same, putting->record, putting->paper->note, fault)
		      : insert(book, putting, &number, fault);
	if (!written || !writing_keep(&writing, fault)) {
		return false;
	}
	*out = (struct paper_put){same != 0 ? same : number, same != 0};
	return true;
}

bool
book_put_paper(struct book *book, const struct paper *paper, const struct record *record,
    const struct text *bytes, struct paper_put *out, struct fault *fault)
{
	struct putting putting = {
	    .paper = paper, .bytes = text_string(bytes), .length = bytes->length};
	return put(book, record, &putting, out, fault) ||
	       fault_prefix(fault, "keeping \"%.100s\"", paper->name);
}

static void
take_paper(struct call *call, struct arena *arena, void *out)
{
	struct paper *paper = out;
	paper->number = take_int(call);
	paper->tag = take_text(call, arena);
	paper->name = take_text(call, arena);
	paper->media_type = take_text(call, arena);
	paper->note = take_text(call, arena);
	paper->added = take_day(call);
	paper->size = take_int(call);
	paper->sha256 = take_text(call, arena);
	paper->certificate = "";
	paper->of_record = !take_null(call);
	if (paper->of_record) {
		paper->task = (enum task)take_code(call, &TASK_CODES);
		paper->on = take_stamp(call);
		paper->certificate = take_text(call, arena);
	}
}

static bool
load_papers(struct book *book, const char *tag, struct arena *arena,
    const struct paper **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, LOAD_PAPERS, &call, fault)) {
		return false;
	}
	give_text(&call, tag == NULL ? "" : tag);
	return call_rows(&call, arena, take_paper, sizeof **out, out, count_out, fault);
}

bool
book_load_papers(struct book *book, const char *tag, struct arena *arena,
    const struct paper **out, size_t *count_out, struct fault *fault)
{
	return load_papers(book, tag, arena, out, count_out, fault) ||
	       fault_prefix(fault, "reading the papers");
}

static bool
read_paper(
    struct book *book, const struct paper *paper, struct text *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	char sha256[DIGEST_SIZE];
	bool row = false;
	if (!call_open(book, PAPER_READ, &call, fault)) {
		return false;
	}
	give_int(&call, paper->number);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	if (!row) {
		return fault_set(fault, FAULT_INPUT, "it is no longer in the book");
	}
	text_reset(out);
	take_bytes(&call, out);
	digest(text_string(out), out->length, sha256);
	if (strcmp(sha256, paper->sha256) != 0) {
		return fault_set(fault, FAULT_BOOK,
		    "its bytes are not those that were put in: the SHA-256 differs");
	}
	return call_row(&call, &row, fault);
}

bool
book_read_paper(
    struct book *book, const struct paper *paper, struct text *out, struct fault *fault)
{
	return read_paper(book, paper, out, fault) ||
	       fault_prefix(fault, "reading paper %lld", (long long)paper->number);
}

static bool
remove_paper(struct book *book, const char *tag, int64_t number, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t item = 0;
	int64_t removed = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !item_need(book, tag, &item, fault) ||
	    !call_open(book, PAPER_REMOVE, &call, fault)) {
		return false;
	}
	give_int(&call, number);
	give_int(&call, item);
	if (!call_run_changed(&call, &removed, fault)) {
		return false;
	}
	if (removed == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "%.60s has no paper %lld; \"becket papers %.60s\" shows those it has",
		    tag, (long long)number, tag);
	}
	return writing_keep(&writing, fault);
}

bool
book_remove_paper(struct book *book, const char *tag, int64_t number, struct fault *fault)
{
	return remove_paper(book, tag, number, fault) ||
	       fault_prefix(fault, "removing a paper");
}
