#include "desk/people.h"

#include "base/fold.h"
#include "desk/files.h"

#include <errno.h>
#include <fcntl.h>
#include <sodium.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

static const char HEAD[] = "people of a becket book, 1";

enum { NAME_MOST = 60 };

static const char *const RIGHT_WORDS[] = {
    [RIGHT_NONE] = "",
    [RIGHT_LOOK] = "look",
    [RIGHT_RECORD] = "record",
    [RIGHT_MANAGE] = "manage",
};

const char *
right_word(enum right right)
{
	return RIGHT_WORDS[right];
}

static enum right
right_of_word(const char *word)
{
	for (int right = RIGHT_LOOK; right <= RIGHT_MANAGE; right++) {
		if (strcmp(RIGHT_WORDS[right], word) == 0) {
			return (enum right)right;
		}
	}
	return RIGHT_NONE;
}

void
people_path(const char *book_path, struct text *out)
{
	text_add_format(out, "%s.people", book_path);
}

/* Cuts the next word, up to a tab, off a line; NULL where the line has no more. */
static const char *
cut(char **line)
{
	char *word = *line;
	if (word == NULL) {
		return NULL;
	}
	char *tab = strchr(word, '\t');
	*line = tab == NULL ? NULL : tab + 1;
	if (tab != NULL) {
		*tab = '\0';
	}
	return word;
}

static bool
read_line(char *line, struct arena *arena, struct people *out)
{
	struct person person = {0};
	person.name = cut(&line);
	const char *right = cut(&line);
	person.digest = cut(&line);
	if (person.digest == NULL || line != NULL || out->count == PEOPLE_MOST) {
		return false;
	}
	person.right = right_of_word(right);
	if (person.right == RIGHT_NONE || people_find(out, person.name) != NULL ||
	    strncmp(person.digest, crypto_pwhash_STRPREFIX,
		strlen(crypto_pwhash_STRPREFIX)) != 0) {
		return false;
	}
	ARENA_ADD(arena, out, person);
	return true;
}

/* The lines of the file, each of which must be whole: a right that was misread would let in. */
static bool
read_lines(const char *path, char *at, struct arena *arena, struct people *out,
    struct fault *fault)
{
	for (int number = 1; *at != '\0'; number++) {
		char *end = strchr(at, '\n');
		bool whole = end != NULL;
		if (whole) {
			*end = '\0';
		}
		if (!whole ||
		    (number == 1 ? strcmp(at, HEAD) != 0 : !read_line(at, arena, out))) {
			return fault_set(fault, FAULT_INPUT,
			    "%s: line %d is not as becket writes it; \"becket people\" makes "
			    "the file anew once it is put aside",
			    path, number);
		}
		at = end + 1;
	}
	return true;
}

bool
people_read(
    const char *path, struct arena *arena, struct people *out, struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	struct people people = {0};
	unsigned rights = file_rights(path);
	if (access(path, F_OK) != 0 && errno == ENOENT) {
		*out = people;
		return true;
	}
	if ((rights & (S_IRWXG | S_IRWXO)) != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "%s can be read by others on this machine (its rights are %03o); "
		    "\"chmod 600\" mends that",
		    path, rights);
	}
	if (!file_read_most(path, (size_t)1024 * 1024, &bytes, fault)) {
		return false;
	}
	char *copy = arena_alloc(arena, bytes.length + 1);
	memcpy(copy, text_string(&bytes), bytes.length);
	if (!read_lines(path, copy, arena, &people, fault)) {
		return false;
	}
	*out = people;
	return true;
}

static bool
is_same_name(const char *a, const char *b)
{
	SCOPED_TEXT left = {0};
	SCOPED_TEXT right = {0};
	fold_case(a, &left);
	fold_case(b, &right);
	return strcmp(text_string(&left), text_string(&right)) == 0;
}

const struct person *
people_find(const struct people *people, const char *name)
{
	for (size_t i = 0; utf8_valid(name, strlen(name)) && i < people->count; i++) {
		if (is_same_name(people->items[i].name, name)) {
			return &people->items[i];
		}
	}
	return NULL;
}

/* The digest of a password with a salt of its own. */
static bool
digest(const char *password, char out[crypto_pwhash_STRBYTES], struct fault *fault)
{
	return (sodium_init() >= 0 && crypto_pwhash_str(out, password, strlen(password),
					  crypto_pwhash_OPSLIMIT_INTERACTIVE,
					  crypto_pwhash_MEMLIMIT_INTERACTIVE) == 0) ||
	       fault_set(fault, FAULT_FILE,
		   "the machine has not the 64 MiB that a password needs");
}

bool
person_has_password(const struct person *person, const char *password)
{
	/* an unknown name takes as long: a digest is made and thrown away */
	char nobody[crypto_pwhash_STRBYTES];
	struct fault none = {0};
	if (strlen(password) > PASSWORD_MOST || sodium_init() < 0) {
		return false;
	}
	if (person == NULL) {
		(void)digest(password, nobody, &none);
		return false;
	}
	return crypto_pwhash_str_verify(person->digest, password, strlen(password)) == 0;
}

static bool
check_name(const char *name, struct fault *fault)
{
	size_t length = strlen(name);
	bool sound = utf8_valid(name, length) && utf8_hidden(name) == NULL;
	for (const char *at = name; *at != '\0'; at++) {
		sound = sound && (unsigned char)*at >= ' ' && *at != 0x7f;
	}
	if (sound && length > 0 && name[0] != ' ' && name[length - 1] != ' ' &&
	    utf8_count(name) <= NAME_MOST) {
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "expected a person's name, of 1 to %d letters and no blank around it, found "
	    "\"%.80s\"",
	    NAME_MOST, sound ? name : "what can't be shown");
}

static bool
check_password(const char *name, const char *password, struct fault *fault)
{
	size_t length = strlen(password);
	if (!utf8_valid(password, length)) {
		return fault_set(
		    fault, FAULT_INPUT, "the password is not written in UTF-8");
	}
	if (length > PASSWORD_MOST || utf8_count(password) < PASSWORD_LEAST) {
		return fault_set(fault, FAULT_INPUT,
		    "the password is too %s; expected at least %d letters and at most %d "
		    "bytes: some words that don't belong together are easy to keep",
		    length > PASSWORD_MOST ? "long" : "short", PASSWORD_LEAST,
		    PASSWORD_MOST);
	}
	return !is_same_name(name, password) ||
	       fault_set(fault, FAULT_INPUT, "the password is the name: choose another");
}

/* Opens the file, made for its owner alone where it is not there, and keeps others from
 * changing it: the lock is on the file that stands at the path, which a change puts
 * another in the place of. */
static bool
lock(const char *path, int *out, struct fault *fault)
{
	for (;;) {
		struct stat held;
		struct stat there;
		int descriptor =
		    open(path, O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0600);
		if (descriptor < 0 || flock(descriptor, LOCK_EX) != 0) {
			if (descriptor >= 0) {
				(void)close(descriptor);
			}
			return fault_file(fault, "opening", path);
		}
		if (fstat(descriptor, &held) == 0 && stat(path, &there) == 0 &&
		    held.st_ino == there.st_ino && held.st_dev == there.st_dev) {
			*out = descriptor;
			return true;
		}
		(void)close(descriptor);
	}
}

static bool
write_all(const char *path, const struct people *people, struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	SCOPED_NEW_FILE file = {0};
	text_add_format(&bytes, "%s\n", HEAD);
	for (size_t i = 0; i < people->count; i++) {
		const struct person *person = &people->items[i];
		text_add_format(&bytes, "%s\t%s\t%s\n", person->name,
		    right_word(person->right), person->digest);
	}
	return new_file_write(path, text_string(&bytes), bytes.length, &file, fault) &&
	       new_file_keep(&file, fault);
}

static bool
has_manager(const struct people *people)
{
	for (size_t i = 0; i < people->count; i++) {
		if (people->items[i].right == RIGHT_MANAGE) {
			return true;
		}
	}
	return false;
}

/* A change of the people as they stand in the file. */
typedef bool amend(struct people *people, const struct person_change *change,
    struct arena *arena, struct fault *fault);

/* Reads, changes and writes them under the lock. */
static bool
change_all(
    const char *path, const struct person_change *change, amend *how, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct people people = {0};
	int descriptor = -1;
	if (!lock(path, &descriptor, fault)) {
		return false;
	}
	bool done = people_read(path, &arena, &people, fault) &&
		    how(&people, change, &arena, fault);
	if (done && people.count > 0 && !has_manager(&people)) {
		done = fault_set(fault, FAULT_INPUT,
		    "nobody who may do everything would be left; expected one with the right "
		    "\"manage\"");
	}
	done = done && write_all(path, &people, fault);
	(void)close(descriptor);
	return done;
}

/* The person who is meant, to be changed. */
static bool
find(struct people *people, const char *name, struct person **out, struct fault *fault)
{
	const struct person *person = people_find(people, name);
	if (person == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "there is nobody called \"%.60s\"; \"becket people\" lists them",
		    name);
	}
	*out = &people->items[person - people->items];
	return true;
}

static bool
give_password(
    struct person *person, const char *password, struct arena *arena, struct fault *fault)
{
	char words[crypto_pwhash_STRBYTES];
	if (!check_password(person->name, password, fault) ||
	    !digest(password, words, fault)) {
		return false;
	}
	person->digest = arena_string(arena, words);
	return true;
}

static bool
add(struct people *people, const struct person_change *change, struct arena *arena,
    struct fault *fault)
{
	struct person person = {.name = change->name, .right = change->right};
	if (!check_name(change->name, fault)) {
		return false;
	}
	if (people_find(people, change->name) != NULL || people->count == PEOPLE_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    people->count == PEOPLE_MOST
			? "there are too many people: \"%.60s\" is one more than there may be"
			: "\"%.60s\" is there already; \"becket people change\" changes that",
		    change->name);
	}
	if (!give_password(&person, change->password, arena, fault)) {
		return false;
	}
	ARENA_ADD(arena, people, person);
	return true;
}

static bool
alter(struct people *people, const struct person_change *change, struct arena *arena,
    struct fault *fault)
{
	struct person *person = NULL;
	if (!find(people, change->name, &person, fault)) {
		return false;
	}
	person->right = change->right != RIGHT_NONE ? change->right : person->right;
	return change->password == NULL ||
	       give_password(person, change->password, arena, fault);
}

static bool
take_out(struct people *people, const struct person_change *change, struct arena *arena,
    struct fault *fault)
{
	struct person *person = NULL;
	(void)arena;
	if (!find(people, change->name, &person, fault)) {
		return false;
	}
	size_t behind = people->count - (size_t)(person - people->items) - 1;
	memmove(person, person + 1, behind * sizeof *person);
	people->count--;
	return true;
}

bool
people_add(const char *path, const struct person_change *change, struct fault *fault)
{
	return change_all(path, change, add, fault);
}

bool
people_change(const char *path, const struct person_change *change, struct fault *fault)
{
	return change_all(path, change, alter, fault);
}

bool
people_remove(const char *path, const char *name, struct fault *fault)
{
	const struct person_change change = {.name = name};
	return change_all(path, &change, take_out, fault);
}
