/* The schema, as the bytes of migrations/NNNN_name.sql, put in the program at build. */
#ifndef BECKET_BOOK_MIGRATIONS_H
#define BECKET_BOOK_MIGRATIONS_H

struct migration {
	const char *name; /* the file's name */
	const char *sql;  /* its text */
};

/* In order: the first makes version 1. */
extern const struct migration MIGRATIONS[];
extern const int MIGRATION_COUNT;

#endif
