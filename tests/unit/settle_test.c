/* The identity of reminders: the same twice, moved, and back again. */
#include "base/memory.h"
#include "becket_test.h"
#include "calendar/reminders.h"

#include <string.h>

static const char IDENTITY[] = "00112233445566778899aabbccddeeff";

enum { NOW = 1800000000, WANTED = 2 };

/* Two reminders not yet settled, and room for what the book would remember of them. */
struct scene {
	struct arena arena;
	struct reminder items[WANTED];
	struct reminders reminders;
	struct book_reminder stored[WANTED];
};

static void
scene_clear(struct scene *scene)
{
	arena_clear(&scene->arena);
}

#define SCOPED_SCENE __attribute__((cleanup(scene_clear))) struct scene

static void
scene_start(struct scene *scene)
{
	*scene = (struct scene){
	    .items = {
		{.key = "self|Example|2026",
		    .day = 20800,
		    .summary = "Check 2 items yourself (Example)",
		    .description = "- LJ-1\n- LJ-2",
		    .category = "becket"},
		{.key = "hand-in|Example|2026|Skerry Raft Loft|1",
		    .day = 20700,
		    .summary = "Hand in 1 item at Skerry Raft Loft (Example)",
		    .description = "- LR-1",
		    .category = "becket"},
	    }};
}

/* What is stored, of which so many are looked at. */
struct looked_in {
	const struct scene *scene;
	size_t count;
};

static const struct book_reminder *
find_stored(const char *key, void *of)
{
	const struct looked_in *in = of;
	for (size_t i = 0; i < in->count; i++) {
		if (strcmp(in->scene->stored[i].key, key) == 0) {
			return &in->scene->stored[i];
		}
	}
	return NULL;
}

static const struct given_before NOTHING_GIVEN = {NULL, NULL};

/* Settles the first `count` reminders against what is stored. */
static void
settle(struct scene *scene, size_t count, size_t stored_count, int64_t now)
{
	struct fault fault = {0};
	scene->reminders = (struct reminders){.items = scene->items, .count = count};
	struct looked_in in = {scene, stored_count};
	assert_true(
	    reminders_settle(&scene->reminders, &(struct given_before){find_stored, &in},
		IDENTITY, now, &scene->arena, &fault));
}

/* Does what the book does between two runs. */
static void
store(struct scene *scene)
{
	for (size_t i = 0; i < WANTED; i++) {
		const struct reminder *from = &scene->items[i];
		scene->stored[i] = (struct book_reminder){.key = from->key,
		    .uid = from->uid,
		    .sequence = from->sequence,
		    .modified = from->modified,
		    .shape = from->shape};
	}
}

static void
scene_settled_once(struct scene *scene)
{
	scene_start(scene);
	settle(scene, WANTED, 0, NOW);
	store(scene);
}

/* RFC 9562, sections 4, 4.1 and 5.8: 8-4-4-4-12 hexadecimal digits, the version's digit 8
 * and the variant's one of 8, 9, a and b. */
TEST(a_new_reminder_gets_a_uuid_of_version_8)
{
	SCOPED_SCENE scene;
	scene_settled_once(&scene);
	for (size_t i = 0; i < WANTED; i++) {
		const char *uid = scene.items[i].uid;
		assert_non_null(uid);
		if (uid == NULL) {
			return; /* cmocka does not tell compilers that it never returns */
		}
		assert_int_equal(strlen(uid), 36);
		assert_int_equal(strspn(uid, "0123456789abcdef-"), 36);
		for (size_t at = 0; at < 36; at++) {
			bool dash = at == 8 || at == 13 || at == 18 || at == 23;
			assert_true((uid[at] == '-') == dash);
		}
		assert_int_equal(uid[14], '8');
		assert_non_null(strchr("89ab", uid[19]));
		assert_int_equal(scene.items[i].sequence, 0);
		assert_int_equal(scene.items[i].modified, NOW);
	}
	assert_string_not_equal(scene.items[0].uid, scene.items[1].uid);
}

TEST(the_same_identity_and_key_give_the_same_uid_and_another_identity_another)
{
	SCOPED_SCENE scene;
	SCOPED_SCENE other;
	scene_settled_once(&scene);
	scene_start(&other);
	other.items[0].day += 9;
	settle(&other, WANTED, 0, NOW + 77);
	assert_string_equal(scene.items[0].uid, other.items[0].uid);
	struct fault fault = {0};
	assert_true(reminders_settle(&other.reminders, &NOTHING_GIVEN,
	    "ff112233445566778899aabbccddeeff", NOW, &other.arena, &fault));
	assert_string_not_equal(scene.items[0].uid, other.items[0].uid);
}

TEST(the_same_again_changes_nothing)
{
	SCOPED_SCENE scene;
	scene_settled_once(&scene);
	settle(&scene, WANTED, WANTED, NOW + 5000);
	for (size_t i = 0; i < WANTED; i++) {
		assert_string_equal(scene.items[i].uid, scene.stored[i].uid);
		assert_int_equal(scene.items[i].sequence, 0);
		assert_int_equal(scene.items[i].modified, NOW);
		assert_string_equal(scene.items[i].shape, scene.stored[i].shape);
	}
}

TEST(a_moved_day_keeps_the_uid_and_counts_one_change)
{
	SCOPED_SCENE scene;
	scene_settled_once(&scene);
	scene.items[1].day += 1;
	settle(&scene, WANTED, WANTED, NOW + 5000);
	assert_string_equal(scene.items[1].uid, scene.stored[1].uid);
	assert_int_equal(scene.items[1].sequence, 1);
	assert_int_equal(scene.items[1].modified, NOW + 5000);
	assert_int_equal(scene.items[0].sequence, 0);
	assert_int_equal(scene.items[0].modified, NOW);
}

TEST(every_visible_field_counts_and_none_runs_into_the_next)
{
	SCOPED_SCENE scene;
	scene_settled_once(&scene);
	scene.items[0].summary = "Check 3 items yourself (Example)";
	scene.items[1].description = "";
	settle(&scene, WANTED, WANTED, NOW + 1);
	assert_int_equal(scene.items[0].sequence, 1);
	assert_int_equal(scene.items[1].sequence, 1);
	store(&scene);
	scene.items[0].category = "gear";
	settle(&scene, WANTED, WANTED, NOW + 2);
	assert_int_equal(scene.items[0].sequence, 2);
	assert_int_equal(scene.items[1].sequence, 1);
	/* The same letters, split elsewhere. */
	scene.items[0].summary = "ab";
	scene.items[0].description = "c";
	settle(&scene, 1, 0, NOW);
	const char *shape = scene.items[0].shape;
	scene.items[0].summary = "a";
	scene.items[0].description = "bc";
	settle(&scene, 1, 0, NOW);
	assert_string_not_equal(scene.items[0].shape, shape);
}

TEST(a_change_is_later_than_the_one_before_even_when_the_clock_was_set_back)
{
	SCOPED_SCENE scene;
	scene_settled_once(&scene);
	scene.items[0].day += 1;
	settle(&scene, WANTED, WANTED, NOW - 86400);
	assert_int_equal(scene.items[0].modified, NOW + 1);
	store(&scene);
	scene.items[0].day += 1;
	settle(&scene, WANTED, WANTED, NOW + 1); /* twice in one second */
	assert_int_equal(scene.items[0].modified, NOW + 2);
	assert_int_equal(scene.items[0].sequence, 2);
}

TEST(a_key_that_comes_back_has_its_uid_and_a_higher_sequence)
{
	SCOPED_SCENE scene;
	scene_settled_once(&scene);
	scene.stored[0].shape = ""; /* the same shape would come back */
	settle(&scene, WANTED, WANTED, NOW + 10);
	assert_string_equal(scene.items[0].uid, scene.stored[0].uid);
	assert_int_equal(scene.items[0].sequence, 1);
	assert_int_equal(scene.items[0].modified, NOW + 10);
}

TEST(two_reminders_of_one_key_are_refused)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.items[1].key = scene.items[0].key;
	scene.reminders = (struct reminders){.items = scene.items, .count = WANTED};
	struct fault fault = {0};
	assert_false(reminders_settle(
	    &scene.reminders, &NOTHING_GIVEN, IDENTITY, NOW, &scene.arena, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_string_equal(fault.text,
	    "giving the reminders their identity: two reminders are about the same thing, \"self|Example|2026\"");
}

RUN_TESTS(NULL, NULL)
