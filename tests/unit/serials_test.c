/* Serial numbers that should be read again. */
#include "life/serials.h"

#include "becket_test.h"
#include "draw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

TEST(numbers_are_the_same_whatever_the_capitals_blanks_and_hyphens)
{
	assert_true(serial_same("J20-8812", "j20 8812"));
	assert_true(serial_same("C.181/001", "C181001"));
	assert_false(serial_same("C181001", "C181002"));
	/* no number is the same as no number */
	assert_false(serial_same("", ""));
	assert_false(serial_same("- -", "--"));
}

TEST(numbers_are_near_when_one_character_makes_them_the_same)
{
	static const struct {
		const char *a;
		const char *b;
		bool near;
	} ROWS[] = {
	    {"C181001", "C181002", true},  /* changed */
	    {"C181001", "C18101", true},   /* left out */
	    {"C181001", "XC181001", true}, /* put in */
	    {"C181001", "C118001", true},  /* swapped neighbours */
	    {"C181001", "C181001", false}, /* the same */
	    {"C181001", "C181023", false}, /* two changed */
	    {"C181001", "C181", false},    /* three left out */
	    {"1234", "1243", true},        /* four characters are enough */
	    {"123", "124", false},         /* three are a house number */
	    {"1234", "123", false},        /* and so is one of the two */
	    {"AB-1001", "AB 1002", true},  /* hyphens and blanks do not count */
	    {"C1810-01", "C181001", false},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_int_equal(serial_near(ROWS[i].a, ROWS[i].b), ROWS[i].near);
		assert_int_equal(serial_near(ROWS[i].b, ROWS[i].a), ROWS[i].near);
	}
}

enum { WORD = 16 };

/* The slow way: every word that one change makes of `a`, held against `b`. */
static bool
near_slowly(const char *a, const char *b)
{
	static const char LETTERS[] = "abc01";
	size_t length = strlen(a);
	char tried[WORD + 2];
	if (length < SERIAL_LEAST || strlen(b) < SERIAL_LEAST || strcmp(a, b) == 0) {
		return false;
	}
	for (size_t at = 0; at <= length; at++) {
		for (const char *letter = LETTERS; *letter != '\0'; letter++) {
			(void)snprintf(
			    tried, sizeof tried, "%.*s%c%s", (int)at, a, *letter, a + at);
			if (strcmp(tried, b) == 0) {
				return true;
			}
			(void)snprintf(tried, sizeof tried, "%s", a);
			tried[at] = at < length ? *letter : '\0';
			if (strcmp(tried, b) == 0) {
				return true;
			}
		}
		(void)snprintf(tried, sizeof tried, "%.*s%s", (int)at, a,
		    at < length ? a + at + 1 : "");
		if (strcmp(tried, b) == 0) {
			return true;
		}
		(void)snprintf(tried, sizeof tried, "%s", a);
		if (at + 1 < length) {
			tried[at] = a[at + 1];
			tried[at + 1] = a[at];
		}
		if (strcmp(tried, b) == 0) {
			return true;
		}
	}
	return false;
}

static void
draw_word(unsigned *seed, char word[WORD])
{
	static const char LETTERS[] = "abc01";
	size_t length = 3 + draw(seed, 4);
	for (size_t i = 0; i < length; i++) {
		word[i] = LETTERS[draw(seed, 5)];
	}
	word[length] = '\0';
}

TEST(near_is_what_trying_every_change_finds)
{
	unsigned seed = 20261125;
	size_t found = 0;
	for (int round = 0; round < 20000; round++) {
		char a[WORD];
		char b[WORD];
		draw_word(&seed, a);
		draw_word(&seed, b);
		if (round % 2 == 0) {
			/* one or two characters changed, so that many are near */
			(void)snprintf(b, sizeof b, "%s", a);
			b[draw(&seed, 3)] = "abc01"[draw(&seed, 5)];
			b[draw(&seed, 3)] = "abc01"[draw(&seed, 5)];
		}
		bool slow = near_slowly(a, b);
		found += slow ? 1 : 0;
		if (serial_near(a, b) != slow) {
			fail_msg("round %d: \"%s\" and \"%s\": %d", round, a, b, slow);
		}
	}
	assert_true(found > 1000);
}

/* A book of some items, and entries for it. */
struct scene {
	struct item items[64];
	struct inventory inventory;
	struct serial_entry entries[64];
	struct serial_finding findings[64];
	size_t entry_count;
	char words[128][WORD];
	size_t word_count;
};

static struct item *
add_item(struct scene *scene, const char *kind, const char *serial)
{
	struct item *item = &scene->items[scene->inventory.item_count++];
	*item = (struct item){.kind = kind, .serial = serial, .tag = serial};
	scene->inventory.items = scene->items;
	return item;
}

static void
add_entry(struct scene *scene, const char *kind, const char *serial)
{
	scene->entries[scene->entry_count++] =
	    (struct serial_entry){kind, serial, ITEM_NO_PARENT, true};
}

static void
look(struct scene *scene)
{
	serial_look_all(
	    &scene->inventory, scene->entries, scene->entry_count, scene->findings);
}

TEST(a_number_is_held_against_those_of_its_kind_alone)
{
	struct scene scene = {0};
	add_item(&scene, "epirb", "E9000");
	add_item(&scene, "plb", "P1100");
	add_entry(&scene, "epirb", "E9000");
	add_entry(&scene, "plb", "E9000");
	add_entry(&scene, "epirb", "E9001");
	add_entry(&scene, "epirb", "");
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_SAME);
	assert_int_equal(scene.findings[0].item, 0);
	assert_int_equal(scene.findings[1].doubt, SERIAL_FINE);
	assert_int_equal(scene.findings[2].doubt, SERIAL_NEAR);
	assert_int_equal(scene.findings[3].doubt, SERIAL_FINE);
}

/* Letters alone, so that none counts on; few of them, so that many are alike. */
TEST(many_numbers_are_doubted_as_by_holding_each_against_each)
{
	enum { MANY = 700, OF_BOOK = 100 };

	static const char *const KINDS[] = {"plb", "epirb"};
	static char words[MANY][9];
	static struct item items[OF_BOOK];
	static struct serial_entry entries[MANY - OF_BOOK];
	static struct serial_finding findings[MANY - OF_BOOK];
	const struct inventory inventory = {.items = items, .item_count = OF_BOOK};
	unsigned seed = 1;
	size_t met[SERIAL_CONDEMNED] = {0};
	for (size_t i = 0; i < MANY; i++) {
		size_t length = 2 + (size_t)draw(&seed, 7);
		for (size_t j = 0; j < length; j++) {
			words[i][j] = "abcC"[draw(&seed, 4)];
		}
		if (i < OF_BOOK) {
			items[i] = (struct item){
			    .kind = KINDS[i % 2], .serial = words[i], .tag = words[i]};
		} else {
			entries[i - OF_BOOK] = (struct serial_entry){
			    KINDS[i % 2], words[i], ITEM_NO_PARENT, true};
		}
	}
	serial_look_all(&inventory, entries, MANY - OF_BOOK, findings);
	for (size_t i = OF_BOOK; i < MANY; i++) {
		enum serial_doubt expected = SERIAL_FINE;
		for (size_t j = i % 2; j < i; j += 2) {
			if (serial_same(words[i], words[j])) {
				expected = SERIAL_SAME;
			} else if (serial_near(words[i], words[j]) &&
				   expected == SERIAL_FINE) {
				expected = SERIAL_NEAR;
			}
		}
		assert_int_equal(findings[i - OF_BOOK].doubt, expected);
		met[expected]++;
	}
	assert_true(
	    met[SERIAL_FINE] > 5 && met[SERIAL_SAME] > 50 && met[SERIAL_NEAR] > 50);
}

TEST(numbers_that_count_on_are_a_batch_and_are_not_near)
{
	struct scene scene = {0};
	add_entry(&scene, "lifejacket-auto", "C-098");
	add_entry(&scene, "firing-head", "");
	add_entry(&scene, "lifejacket-auto", "C-099");
	add_entry(&scene, "lifejacket-auto", "C-100");
	/* left out C-101 */
	add_entry(&scene, "lifejacket-auto", "C-102");
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_FINE);
	assert_int_equal(scene.findings[2].doubt, SERIAL_FINE);
	assert_int_equal(scene.findings[3].doubt, SERIAL_FINE);
	assert_int_equal(scene.findings[4].doubt, SERIAL_NEAR);
}

/* From 1000 to 2000 by ones: of one batch over 1999 too, so that 2000 is not held against 1000. */
TEST(a_batch_goes_on_where_the_first_digit_does)
{
	enum { MANY = 1001 };

	static char words[MANY][5];
	static struct serial_entry entries[MANY];
	static struct serial_finding findings[MANY];
	const struct inventory none = {0};
	for (int i = 0; i < MANY; i++) {
		(void)snprintf(words[i], sizeof words[i], "%d", 1000 + i);
		entries[i] = (struct serial_entry){
		    "flare-red-hand", words[i], ITEM_NO_PARENT, true};
	}
	serial_look_all(&none, entries, MANY, findings);
	for (size_t i = 0; i < MANY; i++) {
		assert_int_equal(findings[i].doubt, SERIAL_FINE);
	}
	/* without 1999 it is another batch */
	memcpy(words[999], "1998", 5);
	serial_look_all(&none, entries, MANY, findings);
	assert_int_equal(findings[1000].doubt, SERIAL_NEAR);
}

TEST(the_same_number_twice_among_the_entries_is_told)
{
	struct scene scene = {0};
	add_item(&scene, "plb", "P1100");
	add_entry(&scene, "plb", "7");
	add_entry(&scene, "plb", "7");
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_FINE);
	assert_int_equal(scene.findings[1].doubt, SERIAL_SAME);
	assert_int_equal(scene.findings[1].item, 1); /* entry 0, after one item */
}

TEST(what_is_unchanged_is_not_asked_about_again)
{
	struct scene scene = {0};
	add_item(&scene, "plb", "P1100");
	add_item(&scene, "plb", "P1101");
	add_entry(&scene, "plb", "P1101");
	scene.entries[0].item = 1;
	scene.entries[0].fresh = false;
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_FINE);
	/* said anew of the same item, only the other one counts */
	scene.entries[0].fresh = true;
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_NEAR);
	assert_int_equal(scene.findings[0].item, 0);
}

TEST(what_was_condemned_is_told_of_any_kind_until_it_is_brought_back)
{
	struct scene scene = {0};
	struct movement movements[] = {
	    {.move = MOVE_WITHDRAWN,
		.because = BECAUSE_CONDEMNED,
		.on = 20800,
		.serial = "J24-0390"},
	    {.move = MOVE_RENEWED, .on = 20900, .serial = "J24-0390"},
	};
	struct item *item = add_item(&scene, "lifejacket-auto", "");
	item->movements = movements;
	item->movement_count = 1;
	add_entry(&scene, "lifejacket-manual", "j240390");
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_CONDEMNED);
	assert_int_equal(scene.findings[0].on, 20800);
	/* another thing took its place: it is still condemned */
	item->movement_count = 2;
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_CONDEMNED);
	/* brought back aboard */
	movements[1] =
	    (struct movement){.move = MOVE_ABOARD, .on = 20900, .serial = "J24-0390"};
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_FINE);
	/* withdrawn for another reason */
	item->movement_count = 1;
	movements[0].because = BECAUSE_SOLD;
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_FINE);
}

/* Of seven numbers typed at once each is found in turn, and no other; and so is one that
 * is worn by what is withdrawn as condemned, with no movement to say when. */
TEST(a_condemned_number_is_found_among_others)
{
	static const char *const NUMBERS[] = {
	    "K-5500", "A1234567", "M9", "C-77-01", "Z000123", "C-88-02", "B31415"};

	enum { COUNT = sizeof NUMBERS / sizeof NUMBERS[0] };

	for (size_t at = 0; at < 2 * (size_t)COUNT; at++) {
		struct scene scene = {0};
		struct movement gone = {.move = MOVE_WITHDRAWN,
		    .because = BECAUSE_CONDEMNED,
		    .on = 20800,
		    .serial = NUMBERS[at / 2]};
		struct item *item = add_item(&scene, "epirb", "");
		if (at % 2 == 0) {
			item->movements = &gone;
			item->movement_count = 1;
		} else {
			item->serial = NUMBERS[at / 2];
			item->state = PLACE_WITHDRAWN;
			item->because = BECAUSE_CONDEMNED;
		}
		for (size_t i = 0; i < COUNT; i++) {
			add_entry(&scene, "lifejacket-auto", NUMBERS[i]);
		}
		look(&scene);
		for (size_t i = 0; i < COUNT; i++) {
			bool is = i == at / 2;
			assert_int_equal(
			    scene.findings[i].doubt, is ? SERIAL_CONDEMNED : SERIAL_FINE);
			if (is) {
				assert_int_equal(
				    scene.findings[i].on, at % 2 == 0 ? 20800 : DAY_NONE);
				assert_int_equal(scene.findings[i].item, 0);
			}
		}
	}
}

/* What was put in the place of K-5500 was condemned: K-5500 was not, and is asked about by
 * nobody. */
TEST(what_was_replaced_before_is_not_condemned_with_what_came_after)
{
	struct scene scene = {0};
	const struct movement renewed = {
	    .move = MOVE_RENEWED, .on = 20700, .serial = "K-5500"};
	struct item *item = add_item(&scene, "epirb", "M-9912");
	item->movements = &renewed;
	item->movement_count = 1;
	item->state = PLACE_WITHDRAWN;
	item->because = BECAUSE_CONDEMNED;
	add_entry(&scene, "lifejacket-auto", "K-5500");
	add_entry(&scene, "lifejacket-auto", "M-9912");
	look(&scene);
	assert_int_equal(scene.findings[0].doubt, SERIAL_FINE);
	assert_int_equal(scene.findings[1].doubt, SERIAL_CONDEMNED);
}

/* The slow way: each against each, batches told by walking back entry by entry. */
static enum serial_doubt
look_slowly(const struct scene *scene, size_t entry)
{
	const struct serial_entry *it = &scene->entries[entry];
	enum serial_doubt found = SERIAL_FINE;
	for (size_t i = 0; i < scene->inventory.item_count; i++) {
		const struct item *item = &scene->items[i];
		if (strcmp(item->kind, it->kind) != 0) {
			continue;
		}
		if (serial_same(item->serial, it->serial)) {
			return SERIAL_SAME;
		}
		found = serial_near(item->serial, it->serial) ? SERIAL_NEAR : found;
	}
	for (size_t i = 0; i < entry; i++) {
		const struct serial_entry *other = &scene->entries[i];
		if (strcmp(other->kind, it->kind) != 0) {
			continue;
		}
		if (serial_same(other->serial, it->serial)) {
			return SERIAL_SAME;
		}
		found = serial_near(other->serial, it->serial) ? SERIAL_NEAR : found;
	}
	return found;
}

TEST(looking_at_many_finds_what_looking_at_each_finds)
{
	static const char *const KINDS[] = {"plb", "epirb"};

	unsigned seed = 4711;
	size_t asked = 0;
	for (int round = 0; round < 300; round++) {
		struct scene scene = {0};
		for (int i = 0; i < 40; i++) {
			char *word = scene.words[scene.word_count++];
			draw_word(&seed, word);
			/* two letters: many are near, and nothing counts on, so that no
			 * batch hides anything */
			for (char *at = word; *at != '\0'; at++) {
				*at = *at < 'b' ? 'a' : 'b';
			}
			const char *kind = KINDS[draw(&seed, 2)];
			if (i < 20) {
				add_item(&scene, kind, word);
			} else {
				add_entry(&scene, kind, word);
			}
		}
		look(&scene);
		for (size_t i = 0; i < scene.entry_count; i++) {
			enum serial_doubt slow = look_slowly(&scene, i);
			asked += slow != SERIAL_FINE ? 1 : 0;
			if (scene.findings[i].doubt != slow) {
				fail_msg("round %d, entry %zu, \"%s\"", round, i,
				    scene.entries[i].serial);
			}
		}
	}
	assert_true(asked > 500);
}

/* FL-2 and FL-3 were split from FL-1, FL-4 from FL-3. FL-5 has the number by chance, which is
 * another's mistake; a jacket with it is no flare. */
TEST(pieces_of_one_lot_share_a_number_that_tells_none_of_them)
{
	SCOPED_TEXT words = {0};
	struct item items[] = {
	    {.tag = "FL-1", .kind = "flare", .serial = "B7", .split_from = ""},
	    {.tag = "FL-4", .kind = "flare", .serial = "b-7", .split_from = "FL-3"},
	    {.tag = "FL-5", .kind = "flare", .serial = "B7", .split_from = ""},
	    {.tag = "LJ-1", .kind = "jacket", .serial = "B7", .split_from = "FL-1"},
	    {.tag = "FL-3", .kind = "flare", .serial = "", .split_from = "FL-1"},
	};
	struct inventory inventory = {.items = items, .item_count = 5};
	assert_int_equal(serial_shared_with(&inventory, 0), 1);
	assert_int_equal(serial_shared_with(&inventory, 1), 0);
	for (size_t i = 2; i < 5; i++) {
		assert_true(serial_shared_with(&inventory, i) == ITEM_NO_PARENT);
	}
	serial_shared_words(&inventory, 0, &words);
	assert_string_equal(text_string(&words),
	    "B7 is the number of FL-4 too, of the same lot: it doesn't tell the one from "
	    "the other");
}

/* Sixty numbers of twelve letters drawn at random, none near another: whatever of them
 * begins alike, nothing is doubted. And what was withdrawn as sold, with no movement to
 * say so, is not condemned. */
TEST(numbers_that_have_nothing_in_common_are_not_doubted)
{
	struct scene scene = {0};
	unsigned seed = 20261129;
	struct item *sold = add_item(&scene, "epirb", "Q-1");
	sold->state = PLACE_WITHDRAWN;
	sold->because = BECAUSE_SOLD;
	add_entry(&scene, "lifejacket-auto", "Q-1");
	for (size_t i = 0; i < 60; i++) {
		char *word = scene.words[scene.word_count++];
		for (size_t at = 0; at < 12; at++) {
			word[at] = (char)('a' + draw(&seed, 26));
		}
		word[12] = '\0';
		add_entry(&scene, "epirb", word);
	}
	look(&scene);
	for (size_t i = 0; i < scene.entry_count; i++) {
		assert_int_equal(scene.findings[i].doubt, SERIAL_FINE);
	}
}

RUN_TESTS(NULL, NULL)
