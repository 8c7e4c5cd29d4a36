/* What a push and a feed are given of a fleet that is read some boats at a time, beside what the
 * whole book gives that is read at once. */
#include "book/reminders.h"
#include "book_scratch.h"
#include "calendar/ics.h"
#include "desk/acts.h"
#include "desk/feeds.h"
#include "desk/giving_out.h"
#include "desk/reminding.h"

/* More boats than are read at a time, with a flare of which the days go round and a raft each. */
enum { BOATS = BOATS_AT_A_TIME + 6 };

struct giving_out {
	struct desk desk; /* of the whole book at once */
	struct fault fault;
	char directory[64];
	char path[96];
};

static struct desk
another_desk(const struct giving_out *giving)
{
	return (struct desk){.book_path = giving->path,
	    .book_named = true,
	    .mode = BOOK_CREATE,
	    .shelf.folder = "",
	    .signature = {.who = "", .act = "test"},
	    .today = day_of("2026-11-25"),
	    .now = 1795564800};
}

static void
giving_done(const struct giving_out *giving, bool done)
{
	if (!done) {
		fail_msg("%s", giving->fault.text);
	}
}

static int
begin(void **state)
{
	struct giving_out *giving = calloc(1, sizeof *giving);
	SCOPED_TEXT list = {0};
	struct import_outcome out = {0};
	assert_non_null(giving);
	(void)snprintf(
	    giving->directory, sizeof giving->directory, "/tmp/becket-give-XXXXXX");
	assert_non_null(mkdtemp(giving->directory));
	(void)snprintf(
	    giving->path, sizeof giving->path, "%s/boats.book", giving->directory);
	text_add(&list, "tag,kind,vessel,expires\n");
	for (int boat = 0; boat < BOATS; boat++) {
		text_add_format(&list,
		    "RF-%d,flare-red-hand,Tern %03d,20%d-%02d-%02d\n"
		    "LR-%d,liferaft-valise,Tern %03d,\n",
		    boat, boat, 25 + boat % 4, 1 + boat * 7 % 12, 1 + boat % 28, boat,
		    boat);
	}
	const struct import_request request = {
	    .name = "list.csv", .bytes = &list, .options.currency = "EUR"};
	SCOPED_DESK desk = another_desk(giving);
	giving_done(giving, desk_import(&desk, &request, &out, &giving->fault));
	spool_clear(&out.words);
	giving->desk = another_desk(giving);
	*state = giving;
	return 0;
}

static int
end(void **state)
{
	struct giving_out *giving = *state;
	static const char *const ENDINGS[] = {"", "-wal", "-shm"};
	desk_clear(&giving->desk);
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		char name[128];
		(void)snprintf(name, sizeof name, "%s%s", giving->path, ENDINGS[i]);
		(void)unlink(name);
	}
	int removed = rmdir(giving->directory);
	free(giving);
	return removed;
}

#define PREPARED_TEST(name) TEST_OF(struct giving_out, giving, name, begin, end)

PREPARED_TEST(a_push_of_many_boats_has_the_reminders_of_the_whole_book)
{
	struct reminders whole = {0};
	struct reminders pushed = {0};
	const struct book_account account = {.scope = {SCOPE_FLEET, ""}};
	SCOPED_DESK desk = another_desk(giving);
	giving_done(giving, reminding_seen(&giving->desk, &whole, &giving->fault));
	giving_done(giving,
	    desk_push_reminders(&desk, &account, false, true, &pushed, &giving->fault));
	assert_true(whole.count >= BOATS);
	assert_int_equal(pushed.count, whole.count);
	for (size_t i = 0; i < whole.count; i++) {
		const struct reminder *one = &pushed.items[i];
		const struct reminder *other = &whole.items[i];
		assert_string_equal(one->key, other->key);
		assert_string_equal(one->uid, other->uid);
		assert_string_equal(one->summary, other->summary);
		assert_string_equal(one->description, other->description);
		assert_string_equal(one->category, other->category);
		assert_int_equal(one->day, other->day);
		assert_int_equal(one->modified, other->modified);
		assert_int_equal(one->last_chance, other->last_chance);
	}
}

PREPARED_TEST(
    a_feed_of_many_boats_has_the_to_dos_of_the_whole_book_and_the_book_remembers_all)
{
	struct reminders whole = {0};
	struct feed_body body = {0};
	struct book_feed feed = {0};
	const struct scope fleet = {SCOPE_FLEET, ""};
	const struct book_reminder *kept = NULL;
	size_t kept_count = 0;
	SCOPED_TEXT expected = {0};
	struct fault *fault = &giving->fault;
	SCOPED_DESK desk = another_desk(giving);
	giving_done(giving, desk_new_feed(&desk, &fleet, true, &feed, fault));
	giving_done(giving, reminding_seen_both(&giving->desk, &whole, fault));
	const size_t all = whole.count;
	struct reminders both = {
	    .items = ARENA_MANY(&giving->desk.arena, struct reminder, all), .count = all};
	memcpy(both.items, whole.items, all * sizeof *whole.items);
	const struct reminder **remembered = reminders_by_key(&both, &giving->desk.arena);
	reminders_keep_form(&whole, true);
	assert_true(whole.count >= BOATS && whole.count < all);
	giving_done(giving, ics_begin("becket", true, &expected, fault));
	for (size_t i = 0; i < whole.count; i++) {
		giving_done(giving, ics_add(&whole.items[i], &expected, fault));
	}
	ics_end(&expected);
	giving_done(giving, desk_feed(&desk, feed.secret, &body, fault));
	assert_int_equal(body.of, whole.count);
	assert_string_equal(text_string(&body.ics), text_string(&expected));
	giving_done(giving,
	    book_load_reminders(desk.book, &desk.arena, &kept, &kept_count, fault));
	assert_int_equal(kept_count, all);
	for (size_t i = 0; i < all; i++) { /* both by key */
		assert_string_equal(kept[i].key, remembered[i]->key);
		assert_string_equal(kept[i].uid, remembered[i]->uid);
		assert_string_equal(kept[i].shape, remembered[i]->shape);
		assert_string_equal(kept[i].summary, remembered[i]->summary);
		assert_string_equal(kept[i].description, remembered[i]->description);
		assert_int_equal(kept[i].day, remembered[i]->day);
		assert_int_equal(kept[i].aim, remembered[i]->aim);
		assert_int_equal(kept[i].sequence, remembered[i]->sequence);
	}
	text_clear(&body.ics);
}

RUN_TESTS(NULL, NULL)
