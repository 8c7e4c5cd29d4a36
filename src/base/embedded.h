/* Files that the program carries with it, put in by src/embed.py at build. */
#ifndef BECKET_BASE_EMBEDDED_H
#define BECKET_BASE_EMBEDDED_H

#include <stddef.h>

struct embedded_file {
	const char *name;  /* without its folder */
	const char *bytes; /* zero-terminated beyond `length` */
	size_t length;
};

#endif
