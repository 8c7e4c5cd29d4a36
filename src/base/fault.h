/* What went wrong, in words a person can act on.
 *
 * Every function that can fail returns bool and takes a `struct fault *` as its last
 * parameter, never NULL. It returns true and leaves the fault alone, or returns false with
 * the fault set and its outputs untouched. Each layer on the way up adds one prefix that
 * names the act and the object, so the text reads from act to cause:
 *
 *     importing boats.csv: line 7, column made: "31/02/2021" is no date
 *
 * Only the program's outermost function prints faults. */
#ifndef BECKET_BASE_FAULT_H
#define BECKET_BASE_FAULT_H

#include <stdbool.h>

#define MUST_CHECK __attribute__((warn_unused_result))
#define FORMAT_LIKE(format_at, args_at)                                                  \
	__attribute__((format(printf, format_at, args_at)))

/* What kind of failure it is; the exit status is read from this and nothing else. */
enum fault_kind {
	FAULT_NONE,  /* nothing has gone wrong */
	FAULT_USAGE, /* the words on the command line are wrong */
	FAULT_INPUT, /* a value, file or name handed in is not acceptable */
	FAULT_BOOK,  /* the book could not be opened, read or written */
	FAULT_FILE,  /* another file could not be opened, read or written */
};

/* Stands in words before the name of a field of the request they are about; no name or
 * text in the book has this byte. The command line shows an option in its place, a page
 * can put the words beside the field. */
#define FIELD "\x1a"

/* A failure report. Lives on the caller's stack; starts as `{ 0 }`, or by fault_begin. */
struct fault {
	enum fault_kind kind;
	char text[4096]; /* one or more lines without a final newline; cut when longer */
};

/* Begins one without writing to all of its room: for what is done for each of many things. */
static inline void
fault_begin(struct fault *fault)
{
	fault->kind = FAULT_NONE;
	fault->text[0] = '\0';
}

/* Sets the fault and returns false, so that a caller can `return fault_set(...)`. */
bool fault_set(struct fault *fault, enum fault_kind kind, const char *format, ...)
    FORMAT_LIKE(3, 4);

/* The same of a file: "act path: " and what errno tells. */
bool fault_file(struct fault *fault, const char *act, const char *path);

/* Puts "prefix: " in front of a fault that is already set; a prefix that would push it out is
 * cut. Returns false. */
bool fault_prefix(struct fault *fault, const char *format, ...) FORMAT_LIKE(2, 3);

/* An analyzer that reads one file at a time can't see that they return false. */
/* NOLINTBEGIN(readability-identifier-naming): the functions' own names */
#ifdef __clang_analyzer__
#define fault_set(...) ((void)fault_set(__VA_ARGS__), false)
#define fault_file(...) ((void)fault_file(__VA_ARGS__), false)
#define fault_prefix(...) ((void)fault_prefix(__VA_ARGS__), false)
#endif
/* NOLINTEND(readability-identifier-naming) */

/* The process's exit status for a kind: 0 none, 2 bad usage or bad input, 3 a book or a
 * file could not be read or written. Memory that runs out is no fault: see
 * base/memory.h. */
int fault_exit_status(enum fault_kind kind);

#endif
