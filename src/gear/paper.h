/* A paper kept with a piece of gear: a photograph of its label, a scanned certificate. Plain
 * values; whoever fills them owns the memory they point to. The bytes are not in here: a
 * book may hold many of them, and few commands want any. */
#ifndef BECKET_GEAR_PAPER_H
#define BECKET_GEAR_PAPER_H

#include "gear/item.h"

#include <stdint.h>

/* The largest paper that is taken, in bytes: 10 MiB, a page scanned in colour several times
 * over. */
enum { PAPER_LARGEST = 10 * 1024 * 1024 };

struct paper {
	int64_t number;         /* the book's number for it; 0 for one to be put */
	const char *tag;        /* the item it is about */
	const char *name;       /* a plain file name */
	const char *media_type; /* one of PAPER_TYPES */
	const char *note;       /* "" when none */
	const char *sha256;     /* of its bytes, 64 hexadecimal digits */
	int64_t size;           /* bytes, 1 to PAPER_LARGEST */
	day_t added;            /* the day it was put in the book */
	bool of_record;         /* the next three say of which record; else of the item */
	enum task task;
	struct stamp on;
	const char *certificate; /* "" when the record has none */
};

/* A type of content that is taken. */
struct paper_type {
	const char *media_type; /* as in RFC 6838: "image/jpeg" */
	const char *words;      /* "JPEG picture" */
	const char *endings;    /* of file names, a blank after each: "jpg jpeg " */
};

/* All of them; the last has NULL for a media type. */
extern const struct paper_type PAPER_TYPES[];

/* The type of that name, or NULL. */
const struct paper_type *paper_type_find(const char *media_type);

#endif
