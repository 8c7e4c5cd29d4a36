/* The kinds and the rule sheets: those built into the program, and a person's own from
 * the folder `sheets` beside the book. */
#ifndef BECKET_DESK_SHELF_H
#define BECKET_DESK_SHELF_H

#include "base/embedded.h"
#include "base/memory.h"
#include "base/text.h"
#include "rules/sheet.h"

/* The kinds and the sheets that come with the program: "practice.yaml". */
extern const struct embedded_file EMBEDDED_DATA[];
extern const size_t EMBEDDED_DATA_COUNT;

/* Their digest, made at build: what shelf_digest gives where a person has none of their
 * own. */
extern const char EMBEDDED_DIGEST[];

/* The same files packed (rules/kinds.h), in the same order. */
extern const struct embedded_file EMBEDDED_PACKED[];
extern const size_t EMBEDDED_PACKED_COUNT;

/* Starts as `{ 0 }` with `folder` set; free with shelf_clear. */
struct shelf {
	const char *folder; /* of a person's own sheets; borrowed; "" for none */
	struct kinds *kinds;

	struct shelved {
		struct sheet *sheet; /* owned */
		bool hidden; /* a built-in one whose name one's own takes, and extends */
	} * items;           /* sheets read so far */

	size_t count;
	size_t capacity;
};

void shelf_clear(struct shelf *shelf);

/* The kinds catalogue. */
MUST_CHECK bool shelf_kinds(
    struct shelf *shelf, const struct kinds **out, struct fault *fault);

/* True when a sheet of that name comes with the program. */
bool shelf_built_in(const char *name);

/* The sheet of that name, a person's own first, and what it extends with it. When it
 * hides one that is built in, a line is added to `notes`. One's own sheet may extend the
 * built-in one of its own name. FAULT_INPUT with the known names when there is none, or
 * when a sheet extends itself, straight or in a round. */
MUST_CHECK bool shelf_sheet(struct shelf *shelf, const char *name, struct text *notes,
    const struct sheet **out, struct fault *fault);

/* The names of all sheets, sorted, each once; strings in `arena`. */
void shelf_names(const struct shelf *shelf, struct arena *arena,
    const char *const **names_out, size_t *count_out);

/* True for the name of a sheet that a person can have of their own: no more than a file's
 * name. */
bool shelf_name_is_plain(const char *name);

/* Adds a digest, 64 hexadecimal digits, of all that dates are reckoned by when these
 * sheets are followed: the kinds and sheets that are built in, and, where one of these
 * sheets is a person's own, all of the person's, since one may extend another. It changes
 * with any byte of them, whether a date moves by that or not. An own sheet that can't be
 * read counts as empty. */
MUST_CHECK bool shelf_digest(const struct shelf *shelf, const char *const *followed,
    size_t count, struct text *out, struct fault *fault);

/* Reads a sheet whose text is that of a file anywhere, to check it; what it extends comes
 * from the shelf. `path` is the file's name. Free with sheet_free, before the shelf. */
MUST_CHECK bool shelf_check(struct shelf *shelf, const char *path,
    const struct text *yaml, struct text *notes, struct sheet **out, struct fault *fault);

#endif
