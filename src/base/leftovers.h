/* Files that a killed program left behind: unfinished ones, beside the place they were
 * made for. */
#ifndef BECKET_BASE_LEFTOVERS_H
#define BECKET_BASE_LEFTOVERS_H

/* What is added to "folder/.name" for a file that is being made beside "folder/name", for
 * mkstemp. */
#define LEFTOVER_ENDING ".becket-XXXXXX"

/* Removes a database that was being made and what SQLite keeps beside it, as far as they
 * are there. */
void database_remove(const char *path);

/* Removes the ordinary files of one's own that were being made beside `path`, with what
 * SQLite keeps beside them, and that nobody has written to for an hour: whoever is still
 * making one writes to it. What can't be removed is left. */
void leftovers_remove(const char *path);

/* A private folder in which such a file is made for a call, "PATH.copy-XXXXXX" for
 * mkdtemp. */
#define LEFTOVER_FOLDER ".copy-XXXXXX"

/* Removes one's own folders of that kind beside `path` and the files in them, where
 * nobody has written to any of them for an hour. */
void leftover_folders_remove(const char *path);

#endif
