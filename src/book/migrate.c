/* What a file says of itself, and bringing an older book up to date. */
#include "book/check_inside.h"
#include "book/copy.h"
#include "book/database.h"
#include "book/rows.h"

#include <sodium.h>
#include <stdio.h>
#include <unistd.h>

/* The version from which on a book has a sum of its values. */
enum { FIRST_WITH_SUM = 35 };

int
version_newest(void)
{
	return (int)MIGRATIONS_COUNT;
}

bool
header_read(const struct book *book, struct file_header *out, struct fault *fault)
{
	int64_t *const numbers[] = {
	    &out->application, &out->version, &out->tables, &out->logs};
	return database_numbers(book->database,
	    "SELECT application_id, user_version, (SELECT COUNT(*) FROM sqlite_schema), "
	    "journal_mode = 'wal' "
	    "FROM pragma_application_id, pragma_user_version, pragma_journal_mode",
	    numbers, 4, fault);
}

bool
header_check(const struct file_header *header, enum book_mode mode, struct fault *fault)
{
	bool empty = header->application == 0 && header->tables == 0;
	if (empty && mode == BOOK_CREATE) {
		return true;
	}
	if (empty) {
		return fault_set(fault, FAULT_BOOK, "the file is empty; it is no book");
	}
	if (header->application != APPLICATION_ID) {
		return fault_set(fault, FAULT_BOOK,
		    "the file is an SQLite database, but no book of this program");
	}
	if (header->version < 1) {
		return fault_set(fault, FAULT_BOOK,
		    "the book's header is damaged (it says version %lld, and the first "
		    "is 1); restore a backup (becket book restore)",
		    (long long)header->version);
	}
	if (header->version > version_newest()) {
		return fault_set(fault, FAULT_BOOK,
		    "the book is of a newer program (its version is %lld, the newest "
		    "known here is %d); use that program",
		    (long long)header->version, version_newest());
	}
	if (header->version < version_newest() &&
	    (mode == BOOK_READ || mode == BOOK_LOOK)) {
		return fault_set(fault, FAULT_BOOK,
		    "the book is of an older program (version %lld, expected %d) and has "
		    "to be opened for writing once to bring it up to date; \"becket book "
		    "upgrade\" does that",
		    (long long)header->version, version_newest());
	}
	return true;
}

static bool
first_row(struct book *book, struct fault *fault)
{
	unsigned char random[16];
	char identity[2 * sizeof random + 1];
	randombytes_buf(random, sizeof random);
	for (size_t i = 0; i < sizeof random; i++) {
		(void)snprintf(identity + 2 * i, 3, "%02x", random[i]);
	}
	SCOPED_CALL call = {0};
	if (!call_open(book, BOOK_FIRST, &call, fault)) {
		return false;
	}
	give_text(&call, identity);
	return call_run(&call, fault);
}

/* Runs a script that leaves the book at a version. */
static bool
run_script(struct book *book, const struct embedded_file *script, int version,
    struct fault *fault)
{
	struct file_header header = {0};
	if (!database_execute(book->database, script->bytes, fault) ||
	    !header_read(book, &header, fault)) {
		return fault_prefix(fault, "migration %s", script->name);
	}
	if (header.version != version || header.application != APPLICATION_ID) {
		return fault_set(fault, FAULT_BOOK,
		    "migration %s left version %lld, expected %d", script->name,
		    (long long)header.version, version);
	}
	return true;
}

/* An older book takes each migration that it lacks; a new one is made at once. */
static bool
run_scripts(struct book *book, int version, struct fault *fault)
{
	if (version == 0) {
		return run_script(book, &NEWEST[0], version_newest(), fault);
	}
	for (int number = version + 1; number <= version_newest(); number++) {
		if (!run_script(book, &MIGRATIONS[number - 1], number, fault)) {
			return false;
		}
	}
	return true;
}

/* Runs what is missing, within an open transaction. The version is read again in it,
 * because another program may have been faster. */
static bool
migrate_within(struct book *book, enum book_mode mode, struct fault *fault)
{
	struct file_header header = {0};
	if (!header_read(book, &header, fault) || !header_check(&header, mode, fault)) {
		return false;
	}
	int64_t found = 0;
	int64_t carried = 0;
	if (header.version >= FIRST_WITH_SUM &&
	    !sums_find(book, &found, &carried, fault)) {
		return false;
	}
	if (!run_scripts(book, (int)header.version, fault)) {
		return false;
	}
	bool older = header.version > 0;
	bool off = false;
	/* what the older program did not write stays told of */
	return (!older || journal_prepare(book, fault)) && first_row(book, fault) &&
	       numbers_renew(book, &off, fault) &&
	       sums_renew(book, (uint64_t)found - (uint64_t)carried, fault);
}

/* The journal does not tell of what is done here: it is nobody's change. */
bool
migrate(struct book *book, enum book_mode mode, struct fault *fault)
{
	struct fault ignored = {0};
	if (!call_plain(book, BEGIN_WRITING, fault)) {
		return false;
	}
	bool migrated = database_guard_schema(book->database, false, fault) &&
			migrate_within(book, mode, fault);
	if (database_guard_schema(book->database, true, migrated ? fault : &ignored) &&
	    migrated && revision_raise(book, fault) && call_plain(book, COMMIT, fault)) {
		return true;
	}
	(void)!call_plain(book, ROLLBACK, &ignored);
	return false;
}

bool
make_writable(struct book *book, const char *path, enum book_mode mode,
    const struct file_header *header, struct fault *fault)
{
	/* On a file system without shared memory SQLite stays with the mode it has. */
	if (header->logs == 0 &&
	    !database_execute(book->database, "PRAGMA journal_mode = WAL", fault)) {
		return false;
	}
	if (header->version == version_newest()) {
		return true;
	}
	if (header->version > 0 && !keep_older(book, path, header->version, fault)) {
		return false;
	}
	if (migrate(book, mode, fault)) {
		return true;
	}
	/* nothing has changed: the book itself is what would have been kept */
	if (book_older_kept(book) != NULL) {
		(void)unlink(book_older_kept(book));
	}
	return false;
}
