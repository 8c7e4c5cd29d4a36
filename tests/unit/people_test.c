/* The people of a page, as they are kept beside a book. That a digest is argon2id's is
 * told by its prefix (the PHC string format; RFC 9106 section 3.1 names the variant, both
 * from memory); the least length is NIST SP 800-63B section 5.1.1.2 (from memory). */
#include "desk/people.h"

#include "becket_test.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct shelf {
	char folder[64];
	char path[96];
	struct fault fault;
	struct arena arena;
	struct people people;
};

static int
begin(void **state)
{
	struct shelf *shelf = calloc(1, sizeof *shelf);
	assert_non_null(shelf);
	(void)snprintf(shelf->folder, sizeof shelf->folder, "/tmp/becket-people-XXXXXX");
	assert_non_null(mkdtemp(shelf->folder));
	(void)snprintf(
	    shelf->path, sizeof shelf->path, "%s/book.db.people", shelf->folder);
	*state = shelf;
	return 0;
}

static int
end(void **state)
{
	struct shelf *shelf = *state;
	(void)unlink(shelf->path);
	(void)rmdir(shelf->folder);
	arena_clear(&shelf->arena);
	free(shelf);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct shelf, shelf, name, begin, end)

static bool
add(struct shelf *shelf, const char *name, enum right right, const char *password)
{
	const struct person_change change = {name, right, password};
	shelf->fault = (struct fault){0};
	return people_add(shelf->path, &change, &shelf->fault);
}

/* The people as they stand in the file; the person of that name. */
static const struct person *
find(struct shelf *shelf, const char *name)
{
	assert_true(
	    people_read(shelf->path, &shelf->arena, &shelf->people, &shelf->fault));
	return people_find(&shelf->people, name);
}

PREPARED_TEST(a_book_without_the_file_has_nobody)
{
	assert_null(find(shelf, "Orla Finch"));
	assert_int_equal(shelf->people.count, 0);
}

PREPARED_TEST(a_person_is_found_in_any_case_and_known_by_the_password_alone)
{
	assert_true(add(shelf, "Örla Finch", RIGHT_MANAGE, "four grey geese"));
	const struct person *person = find(shelf, "ÖRLA FINCH");
	assert_non_null(person);
	assert_string_equal(person->name, "Örla Finch");
	assert_int_equal(person->right, RIGHT_MANAGE);
	assert_true(person_has_password(person, "four grey geese"));
	assert_false(person_has_password(person, "four grey geesE"));
	assert_false(person_has_password(person, ""));
	assert_false(person_has_password(NULL, "four grey geese"));
}

PREPARED_TEST(the_file_is_its_owners_alone_and_holds_an_argon2id_digest_and_no_password)
{
	struct stat status;
	char words[1024] = "";
	assert_true(add(shelf, "Orla Finch", RIGHT_MANAGE, "four grey geese"));
	assert_int_equal(stat(shelf->path, &status), 0);
	assert_int_equal(status.st_mode & 0777, 0600);
	FILE *file = fopen(shelf->path, "r");
	assert_non_null(file);
	assert_true(fread(words, 1, sizeof words - 1, file) > 0);
	assert_int_equal(fclose(file), 0);
	assert_non_null(strstr(words, "Orla Finch\tmanage\t$argon2id$"));
	assert_null(strstr(words, "geese"));
}

PREPARED_TEST(a_file_that_others_can_read_is_refused)
{
	assert_true(add(shelf, "Orla Finch", RIGHT_MANAGE, "four grey geese"));
	assert_int_equal(chmod(shelf->path, 0640), 0);
	assert_false(
	    people_read(shelf->path, &shelf->arena, &shelf->people, &shelf->fault));
	assert_int_equal(shelf->fault.kind, FAULT_INPUT);
	assert_non_null(strstr(shelf->fault.text, "chmod 600"));
}

PREPARED_TEST(a_line_that_was_changed_by_hand_lets_nobody_in)
{
	static const char *const LINES[] = {"Orla Finch\tmanage\n",
	    "Orla Finch\towner\t$argon2id$v=19$x\n", "Orla Finch\tmanage\tplain\n",
	    "Orla Finch\tmanage\t$argon2id$v=19$x", "\n",
	    "Orla Finch\tmanage\t$argon2id$v=19$x\tmore\n"};
	for (size_t i = 0; i < sizeof LINES / sizeof LINES[0]; i++) {
		FILE *file = fopen(shelf->path, "w");
		assert_non_null(file);
		(void)fprintf(file, "people of a becket book, 1\n%s", LINES[i]);
		assert_int_equal(fclose(file), 0);
		assert_int_equal(chmod(shelf->path, 0600), 0);
		shelf->fault = (struct fault){0};
		assert_false(people_read(
		    shelf->path, &shelf->arena, &shelf->people, &shelf->fault));
		assert_non_null(strstr(shelf->fault.text, "line 2"));
	}
}

PREPARED_TEST(a_name_stands_once_in_whatever_case)
{
	assert_true(add(shelf, "Orla Finch", RIGHT_MANAGE, "four grey geese"));
	assert_false(add(shelf, "orla finch", RIGHT_LOOK, "five grey geese"));
	assert_non_null(strstr(shelf->fault.text, "is there already"));
}

PREPARED_TEST(a_name_that_would_mislead_in_the_journal_is_refused)
{
	static const char *const NAMES[] = {"", " Orla", "Orla ", "Orla\tmanage",
	    "Or\nla", "Orla\xe2\x80\xae", "\xff",
	    "abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyzabcdefghi"};
	for (size_t i = 0; i < sizeof NAMES / sizeof NAMES[0]; i++) {
		assert_false(add(shelf, NAMES[i], RIGHT_MANAGE, "four grey geese"));
		assert_int_equal(shelf->fault.kind, FAULT_INPUT);
	}
	assert_null(find(shelf, "Orla"));
}

PREPARED_TEST(a_password_is_long_enough_and_not_the_name)
{
	assert_false(add(shelf, "Orla Finch", RIGHT_MANAGE, "geese77"));
	assert_non_null(strstr(shelf->fault.text, "at least 8"));
	assert_false(add(shelf, "Orla Finch", RIGHT_MANAGE, "ORLA finch"));
	assert_true(add(shelf, "Orla Finch", RIGHT_MANAGE, "geese 77"));
}

PREPARED_TEST(another_password_has_another_digest_even_where_it_is_the_same)
{
	const struct person_change change = {
	    .name = "ORLA finch", .password = "four grey geese"};
	assert_true(add(shelf, "Orla Finch", RIGHT_MANAGE, "four grey geese"));
	const char *before = find(shelf, "Orla Finch")->digest;
	assert_true(people_change(shelf->path, &change, &shelf->fault));
	const struct person *after = find(shelf, "Orla Finch");
	assert_string_not_equal(before, after->digest);
	assert_int_equal(after->right, RIGHT_MANAGE);
	assert_true(person_has_password(after, "four grey geese"));
}

PREPARED_TEST(there_is_always_somebody_who_may_do_all_unless_there_is_nobody)
{
	const struct person_change less = {"Orla Finch", RIGHT_LOOK, NULL};
	assert_false(add(shelf, "Bo Tern", RIGHT_LOOK, "four grey geese"));
	assert_non_null(strstr(shelf->fault.text, "manage"));
	assert_true(add(shelf, "Orla Finch", RIGHT_MANAGE, "four grey geese"));
	assert_true(add(shelf, "Bo Tern", RIGHT_LOOK, "five grey geese"));
	assert_false(people_change(shelf->path, &less, &shelf->fault));
	shelf->fault = (struct fault){0};
	assert_false(people_remove(shelf->path, "Orla Finch", &shelf->fault));
	assert_int_equal(find(shelf, "Orla Finch")->right, RIGHT_MANAGE);
	assert_true(people_remove(shelf->path, "bo tern", &shelf->fault));
	assert_true(people_remove(shelf->path, "Orla Finch", &shelf->fault));
	assert_null(find(shelf, "Orla Finch"));
}

RUN_TESTS(NULL, NULL)
