/* The coming years as JSON, of plans that are kept some at a time. Read back with jansson. */
#include "becket_test.h"
#include "exchange/answers.h"

#include <jansson.h>
#include <string.h>

static const struct vessel VESSELS[] = {{.name = "Quillfish", .base = ""}};
static const struct item ITEMS[] = {{.tag = "LR-1", .kind = "liferaft-canister"},
    {.tag = "FL-1", .kind = "flare-red-hand"}};
static const struct station STATIONS[] = {{.name = "Loft \"[]\""}};

/* A code that no book has, so that words are beside the lists that look like one. */
#define CURRENCY "[]\"[]\\"

static const struct inventory BOOK = {VESSELS, 1, ITEMS, 2, CURRENCY};

static struct outlook_line RAFT[] = {{.item = 0,
    .task = TASK_SERVICE,
    .winter = 1,
    .doer = DOER_STATION,
    .minor = 40000,
    .carriage_minor = 500}};
static struct outlook_line FLARES[] = {{.item = 1,
    .task = TASK_RENEW,
    .winter = 0,
    .station = NO_STATION,
    .doer = DOER_OWNER,
    .minor = 2500}};
static struct outlook_trip TRIP[] = {{.winter = 1, .minor = 3000}};
static struct winter_clash CLASH[] = {{.item = 1, .renewed = true}};

/* The raft's plan looks at the winters of 2026 and 2027, that of the flares at 2027 and 2028. */
static const struct named_outlook RAFTS = {.name = "Quillfish",
    .plan = {.first_year = 2026,
	.winters = 2,
	.lines = RAFT,
	.line_count = 1,
	.trips = TRIP,
	.trip_count = 1,
	.minor = 43500,
	.proven = true}};
static const struct named_outlook OF_FLARES = {.name = "Sandgaper",
    .plan = {.first_year = 2027,
	.winters = 2,
	.lines = FLARES,
	.line_count = 1,
	.minor = 2500,
	.proven = true},
    .clashes = {CLASH, 1, 2}};

static void
keep(const struct named_outlook *plan, size_t place, struct years_kept *kept)
{
	const struct outlook_view view = {.inventory = &BOOK,
	    .stations = STATIONS,
	    .station_count = 1,
	    .currency = CURRENCY,
	    .plans = plan,
	    .count = 1};
	answer_years_keep(&view, &place, kept);
}

static json_t *
parsed(struct text *out)
{
	json_error_t error;
	json_t *value = json_loads(text_string(out), JSON_REJECT_DUPLICATES, &error);
	if (value == NULL) {
		fail_msg("%s in: %s", error.text, text_string(out));
	}
	return value;
}

static json_t *
written(const struct years_kept *kept)
{
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_true(answer_years_kept(kept, &out, &fault));
	return parsed(&out);
}

/* Holds a list to the words that jansson has for it, of each element its first key. */
static void
assert_list(const json_t *object, const char *key, const char *expected)
{
	SCOPED_TEXT found = {0};
	const json_t *list = json_object_get(object, key);
	for (size_t i = 0; i < json_array_size(list); i++) {
		void *first = json_object_iter(json_array_get(list, i));
		const json_t *value = json_object_iter_value(first);
		text_add_format(&found, "%s ", json_string_value(value));
	}
	if (!json_is_array(list) || strcmp(text_string(&found), expected) != 0) {
		fail_msg("%s: %s", key, text_string(&found));
	}
}

static void
assert_winter(const json_t *answer, size_t at, int year, int minor, const char *trips,
    const char *items)
{
	const json_t *winter = json_array_get(json_object_get(answer, "winters"), at);
	assert_int_equal(json_integer_value(json_object_get(winter, "winter")), year);
	assert_int_equal(json_integer_value(json_object_get(winter, "minor")), minor);
	assert_list(winter, "trips", trips);
	assert_list(winter, "items", items);
}

TEST(plans_that_come_in_any_order_are_told_together_winter_by_winter)
{
	struct years_kept kept = {0};
	keep(&OF_FLARES, 7, &kept);
	keep(&RAFTS, 3, &kept);
	json_t *answer = written(&kept);
	assert_int_equal(json_array_size(json_object_get(answer, "winters")), 3);
	assert_winter(answer, 0, 2026, 0, "", "");
	/* 30.00 there and back, 400.00 the raft, 5.00 to carry it, 25.00 the flares */
	assert_winter(answer, 1, 2027, 46000, "Loft \"[]\" ", "LR-1 FL-1 ");
	assert_winter(answer, 2, 2028, 0, "", "");
	assert_int_equal(json_integer_value(json_object_get(answer, "minor")), 46000);
	assert_string_equal(
	    json_string_value(json_object_get(answer, "currency")), CURRENCY);
	const json_t *plans = json_object_get(answer, "plans");
	assert_int_equal(json_array_size(plans), 2);
	const json_t *first = json_array_get(plans, 0);
	assert_string_equal(
	    json_string_value(json_object_get(first, "name")), "Quillfish");
	assert_winter(first, 1, 2027, 43500, "Loft \"[]\" ", "LR-1 ");
	assert_list(json_array_get(plans, 1), "shore_list", "FL-1 ");
	assert_list(answer, "shore_list", "");
	json_decref(answer);
	years_kept_clear(&kept);
}

TEST(a_plan_by_itself_is_the_answer)
{
	struct years_kept kept = {0};
	keep(&OF_FLARES, 0, &kept);
	json_t *answer = written(&kept);
	assert_list(answer, "plans", "");
	assert_list(answer, "shore_list", "FL-1 ");
	assert_winter(answer, 0, 2027, 2500, "", "FL-1 ");
	json_decref(answer);
	years_kept_clear(&kept);
}

TEST(a_comparison_holds_both_and_what_the_change_costs)
{
	struct years_kept as_is = {0};
	struct years_kept changed = {0};
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	keep(&RAFTS, 0, &as_is);
	keep(&OF_FLARES, 0, &changed);
	assert_true(answer_years_compared(&as_is, &changed, &out, &fault));
	json_t *answer = parsed(&out);
	assert_winter(
	    json_object_get(answer, "as_is"), 1, 2027, 43500, "Loft \"[]\" ", "LR-1 ");
	assert_winter(json_object_get(answer, "changed"), 0, 2027, 2500, "", "FL-1 ");
	assert_int_equal(
	    json_integer_value(json_object_get(answer, "difference")), 2500 - 43500);
	json_decref(answer);
	years_kept_clear(&as_is);
	years_kept_clear(&changed);
}

TEST(no_plans_have_no_winters)
{
	struct years_kept kept = {0};
	const struct outlook_view none = {.inventory = &BOOK, .currency = CURRENCY};
	answer_years_keep(&none, NULL, &kept);
	json_t *answer = written(&kept);
	assert_list(answer, "winters", "");
	assert_true(json_is_true(json_object_get(answer, "proven")));
	json_decref(answer);
	years_kept_clear(&kept);
}

RUN_TESTS(NULL, NULL)
