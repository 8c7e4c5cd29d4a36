#include "base/text.h"
#include "calendar/reminders.h"
#include "calendar/reminders_inside.h"

#include <assert.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>

enum { DIGEST_BYTES = 16, UUID_SIZE = 37 };

static void
make_digest(const char *const *strings, size_t count,
    unsigned char bytes_out[static DIGEST_BYTES])
{
	crypto_generichash_state state;
	int failed = sodium_init() < 0 ? 1 : 0;
	failed |= crypto_generichash_init(&state, NULL, 0, DIGEST_BYTES);
	for (size_t i = 0; i < count; i++) {
		failed |= crypto_generichash_update(
		    &state, (const unsigned char *)strings[i], strlen(strings[i]) + 1);
	}
	failed |= crypto_generichash_final(&state, bytes_out, DIGEST_BYTES);
	assert(failed == 0 && "the sizes are ones the library takes");
}

/* Draws a UUID from the book's identity and a key: version 8, variant 2 (RFC 9562, sections
 * 5.8 and 4.1), which leaves 122 bits of the digest. */
const char *
reminder_identity(const char *identity, const char *key, struct arena *arena)
{
	const char *const strings[] = {"becket reminder", identity, key};
	unsigned char bytes[DIGEST_BYTES];
	make_digest(strings, sizeof strings / sizeof strings[0], bytes);
	bytes[6] = (unsigned char)((bytes[6] & 0x0F) | 0x80);
	bytes[8] = (unsigned char)((bytes[8] & 0x3F) | 0x80);
	char digits[2 * DIGEST_BYTES + 1];
	sodium_bin2hex(digits, sizeof digits, bytes, sizeof bytes);
	char *uid = arena_alloc(arena, UUID_SIZE);
	size_t at = 0;
	for (size_t i = 0; digits[i] != '\0'; i++) {
		if (i == 8 || i == 12 || i == 16 || i == 20) {
			uid[at++] = '-';
		}
		uid[at++] = digits[i];
	}
	return uid;
}

/* The digest of what a person can see of a reminder. */
static void
take_shape(const struct reminder *reminder, struct arena *arena, const char **shape_out)
{
	char day[DAY_ISO_SIZE];
	const char *const strings[] = {day_iso(reminder->day, day), reminder->summary,
	    reminder->description, reminder->category};
	SCOPED_TEXT shape = {0};
	digest_add(strings, sizeof strings / sizeof strings[0], &shape);
	*shape_out = arena_string(arena, text_string(&shape));
}

static int
compare_reminders(const void *a, const void *b)
{
	const struct reminder *const *left = a;
	const struct reminder *const *right = b;
	return strcmp((*left)->key, (*right)->key);
}

static int
compare_given(const void *a, const void *b)
{
	const struct book_reminder *left = a;
	const struct book_reminder *right = b;
	return strcmp(left->key, right->key);
}

/* Fills in one reminder's identity from what is stored of it, NULL when nothing is. */
static void
settle_one(struct reminder *reminder, const struct book_reminder *stored,
    const char *identity, int64_t now, struct arena *arena)
{
	take_shape(reminder, arena, &reminder->shape);
	if (stored == NULL) {
		reminder->sequence = 0;
		reminder->modified = now;
		reminder->uid = reminder_identity(identity, reminder->key, arena);
		return;
	}
	reminder->uid = arena_string(arena, stored->uid);
	bool same = strcmp(stored->shape, reminder->shape) == 0;
	int64_t later = stored->modified < now ? now : stored->modified + 1;
	reminder->sequence = same ? stored->sequence : stored->sequence + 1;
	reminder->modified = same ? stored->modified : later;
}

/* One reminder to a key, or two would share a UID. */
static bool
check_keys(struct reminder *const *sorted, size_t count, struct fault *fault)
{
	for (size_t i = 1; i < count; i++) {
		const char *key = sorted[i]->key;
		if (strcmp(sorted[i - 1]->key, key) == 0) {
			return fault_set(fault, FAULT_INPUT,
			    "two reminders are about the same thing, \"%.200s\"", key);
		}
	}
	return true;
}

/* Gives each to-do the identity of the reminder it belongs to. */
static void
link_todos(struct reminder *const *sorted, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct reminder *todo = sorted[i];
		struct reminder wanted = {.key = todo->about};
		const struct reminder *key = &wanted;
		struct reminder *const *found =
		    !todo->todo || todo->about[0] == '\0'
			? NULL
			: bsearch(&key, sorted, count, sizeof(void *), compare_reminders);
		todo->about_uid = found == NULL ? "" : (*found)->uid;
	}
}

void
given_sort(struct book_reminder *items, size_t count)
{
	ARRAY_SORT(items, count, compare_given);
}

const struct book_reminder *
given_find_in(const char *key, void *of)
{
	const struct given_sorted *sorted = of;
	const struct book_reminder wanted = {.key = key};
	return sorted->count == 0 ? NULL
				  : bsearch(&wanted, sorted->items, sorted->count,
					sizeof *sorted->items, compare_given);
}

bool
reminders_settle(struct reminders *reminders, const struct given_before *given,
    const char *identity, int64_t now, struct arena *arena, struct fault *fault)
{
	size_t count = reminders->count;
	struct reminder **sorted = ARENA_MANY(arena, struct reminder *, count);
	for (size_t i = 0; i < count; i++) {
		sorted[i] = &reminders->items[i];
	}
	array_sort(sorted, count, sizeof(struct reminder *), compare_reminders);
	if (!check_keys(sorted, count, fault)) {
		return fault_prefix(fault, "giving the reminders their identity");
	}
	for (size_t i = 0; i < count; i++) {
		const struct book_reminder *stored =
		    given->find == NULL ? NULL : given->find(sorted[i]->key, given->of);
		settle_one(sorted[i], stored, identity, now, arena);
	}
	link_todos(sorted, count);
	return true;
}

void
digest_add(const char *const *strings, size_t count, struct text *out)
{
	unsigned char bytes[DIGEST_BYTES];
	char digits[2 * DIGEST_BYTES + 1];
	make_digest(strings, count, bytes);
	text_add(out, sodium_bin2hex(digits, sizeof digits, bytes, sizeof bytes));
}
