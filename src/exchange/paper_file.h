/* Files that come in as papers and go out again: what their content is, and names that are
 * safe wherever they are written. */
#ifndef BECKET_EXCHANGE_PAPER_FILE_H
#define BECKET_EXCHANGE_PAPER_FILE_H

#include "base/text.h"
#include "gear/paper.h"

/* Finds what a file is from its bytes, whatever it is called. FAULT_INPUT for what is not
 * among PAPER_TYPES, and for a name whose ending says something else than the bytes do (a
 * name without an ending says nothing). `name` is a safe name. */
MUST_CHECK bool paper_file_type(const char *name, const struct text *bytes,
    const struct paper_type **out, struct fault *fault);

/* Adds the plain file name of a path: what follows its last slash, with every character that
 * could lead elsewhere, hide something or trouble another system made an underline: slashes
 * of either kind, `:*?"<>|`, control characters, marks that turn the direction of writing,
 * malformed UTF-8, a leading dot, blanks and dots at the end. At most 120 bytes, of which the
 * ending is kept. Never empty. */
void paper_file_name(const char *path, struct text *out);

/* Adds the name under which a paper goes out: its number in the book, so that no two are the
 * same, and its own name made safe again: "12-label.jpg". */
void paper_out_name(const struct paper *paper, struct text *out);

#endif
