/* Keeping a book of an older program as it was, before it is brought up to date. */
#include "book/copy.h"

/* The name of the copy: that of the book with its version, and a number where it is taken. */
static void
name_copy(const char *path, int64_t version, int number, struct text *name)
{
	name->length = 0;
	text_add_format(name, "%s.version-%lld", path, (long long)version);
	if (number > 1) {
		text_add_format(name, "-%d", number);
	}
}

bool
keep_older(struct book *book, const char *path, int64_t version, struct fault *fault)
{
	SCOPED_BESIDE beside = {0};
	SCOPED_TEXT name = {0};
	bool taken = true;
	bool placed = false;
	if (!beside_make(path, path, &beside, fault) ||
	    !copy_to_file(book->database, text_string(&beside.path), NULL, fault)) {
		return fault_prefix(fault, "keeping a copy of the older book");
	}
	for (int number = 1; !placed && taken; number++) {
		name_copy(path, version, number, &name);
		placed = beside_place(&beside, text_string(&name), false, &taken, fault);
	}
	if (!placed) {
		return fault_prefix(fault, "keeping a copy of the older book");
	}
	text_clear(&book->older);
	text_add(&book->older, text_string(&name));
	return true;
}

const char *
book_older_kept(const struct book *book)
{
	return book->older.length > 0 ? text_string(&book->older) : NULL;
}
