/* The people who may come in to the page of a book from elsewhere: their names, what each
 * may do, and what tells that a password is theirs.
 *
 * They stand in a file of their own beside the book, BOOK.people, which its owner alone
 * can read, and not in the book: a copy of the book is given away, put on other disks and
 * carried to other machines, and its journal forgets nothing, so that whatever tells of a
 * password would be in all of them for good; and taking back an entry, or putting an old
 * copy in place, must bring nobody back in. The file is lines of a name, a right and a
 * digest with tabs between, after a line that names it. */
#ifndef BECKET_DESK_PEOPLE_H
#define BECKET_DESK_PEOPLE_H

#include "base/memory.h"
#include "base/text.h"

/* What a person may do: each may what the one before may. */
enum right {
	RIGHT_NONE,   /* is let in to the start alone */
	RIGHT_LOOK,   /* sees pages */
	RIGHT_RECORD, /* writes what was done */
	RIGHT_MANAGE, /* all else */
};

/* A password has at least so many characters (NIST SP 800-63B section 5.1.1.2, from
 * memory) and at most so many bytes; there are at most so many people. */
enum { PASSWORD_LEAST = 8, PASSWORD_MOST = 1024, PEOPLE_MOST = 500 };

struct person {
	const char *name; /* as it stands in the journal; two differ by more than case */
	enum right right; /* RIGHT_LOOK or more */
	const char *digest; /* argon2id with its salt, as libsodium writes it */
};

/* In the order in which they were added; strings in the arena that was given. */
struct people {
	struct person *items;
	size_t count;
	size_t capacity;
};

/* "look", "record", "manage". */
const char *right_word(enum right right);

/* Adds the path of the people of the book at this path. */
void people_path(const char *book_path, struct text *out);

/* Reads them; a file that is not there has nobody. FAULT_INPUT for a file that others can
 * read or that is no such file, FAULT_FILE. */
MUST_CHECK bool people_read(
    const char *path, struct arena *arena, struct people *out, struct fault *fault);

/* The person of that name, in whatever case; NULL when there is none. */
const struct person *people_find(const struct people *people, const char *name);

/* Whether the password is the person's. For NULL it is not, and the answer takes as long,
 * so that nobody learns from the time which names there are. Takes some tenths of a
 * second and 64 MiB. */
bool person_has_password(const struct person *person, const char *password);

/* What is changed of a person; NULL and RIGHT_NONE leave it as it is. */
struct person_change {
	const char *name;
	enum right right;
	const char *password;
};

/* Adds a person, who needs a right and a password. FAULT_INPUT for a name that is there,
 * one that is blank, longer than 60 characters or has anything that is not seen in it;
 * for a password that is too short or too long, or is the name. */
MUST_CHECK bool people_add(
    const char *path, const struct person_change *change, struct fault *fault);

/* Changes a person who is there. FAULT_INPUT as above, and where nobody who may do
 * everything would be left. */
MUST_CHECK bool people_change(
    const char *path, const struct person_change *change, struct fault *fault);

/* Takes a person out. FAULT_INPUT likewise; the last of all may be taken out. */
MUST_CHECK bool people_remove(const char *path, const char *name, struct fault *fault);

#endif
