/* What a killed run left behind, by names and times alone; the hour is of leftovers.h. */
#include "base/leftovers.h"

#include "becket_test.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

struct place {
	char folder[64];
	char book[96];
};

static int
place_begin(void **state)
{
	struct place *place = calloc(1, sizeof *place);
	assert_non_null(place);
	(void)strcpy(place->folder, "/tmp/becket-left-XXXXXX");
	assert_non_null(mkdtemp(place->folder));
	(void)snprintf(place->book, sizeof place->book, "%s/boat.db", place->folder);
	*state = place;
	return 0;
}

static int
place_end(void **state)
{
	struct place *place = *state;
	int removed = rmdir(place->folder);
	free(place);
	return removed;
}

#define PREPARED_TEST(name) TEST_OF(struct place, place, name, place_begin, place_end)

static const char *
beside(const struct place *place, const char *ending, char path[160])
{
	(void)snprintf(path, 160, "%s%s", place->book, ending);
	return path;
}

static void
make_file(const char *path)
{
	int file = open(path, O_WRONLY | O_CREAT | O_EXCL, 0600);
	assert_true(file >= 0);
	(void)close(file);
}

static void
age(const char *path, int minutes)
{
	const struct timespec at = {time(NULL) - minutes * 60, 0};
	const struct timespec both[] = {at, at};
	assert_int_equal(utimensat(AT_FDCWD, path, both, 0), 0);
}

PREPARED_TEST(folders_that_nobody_wrote_to_for_an_hour_go_with_what_is_in_them)
{
	char folder[160];
	char book[160];
	char half[160];
	assert_int_equal(mkdir(beside(place, ".copy-AbC123", folder), 0700), 0);
	make_file(beside(place, ".copy-AbC123/book.db", book));
	make_file(beside(place, ".copy-AbC123/.book.db.becket-XyZ987", half));
	age(book, 61);
	age(half, 61);
	age(folder, 59);
	leftover_folders_remove(place->book);
	assert_int_equal(access(folder, F_OK), 0);
	age(folder, 61);
	leftover_folders_remove(place->book);
	assert_int_not_equal(access(folder, F_OK), 0);
}

PREPARED_TEST(a_folder_with_a_fresh_file_or_another_name_stays)
{
	static const char *const FOLDERS[] = {
	    ".copy-AbC123", ".copy-AbC12", ".copy-AbC123.x"};
	char file[160];
	char path[160];
	for (size_t i = 0; i < sizeof FOLDERS / sizeof FOLDERS[0]; i++) {
		assert_int_equal(mkdir(beside(place, FOLDERS[i], path), 0700), 0);
	}
	make_file(beside(place, ".copy-AbC123/book.db", file));
	for (size_t i = 0; i < sizeof FOLDERS / sizeof FOLDERS[0]; i++) {
		age(beside(place, FOLDERS[i], path), 61);
	}
	leftover_folders_remove(place->book);
	assert_int_equal(unlink(file), 0);
	for (size_t i = 0; i < sizeof FOLDERS / sizeof FOLDERS[0]; i++) {
		assert_int_equal(rmdir(beside(place, FOLDERS[i], path)), 0);
	}
}

RUN_TESTS(NULL, NULL)
