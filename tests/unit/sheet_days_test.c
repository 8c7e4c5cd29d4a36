/* Days under the sheets of the program, worked by hand from the texts they name. Each case says
 * its source and how that was seen. */
#include "becket_test.h"
#include "scene.h"

#include <string.h>

/* One thing of a sheet of the program, its day and what that follows from. */
struct sheet_case {
	const char *sheet;
	enum use use;
	const char *area;
	const char *kind;
	const char *made;
	const char *packed;
	const char *bought;
	const char *fitted;
	enum task task;
	const char *done; /* the last record of the task; NULL for none */
	const char *today;
	const char *due; /* "" where the date is not known */
	const char *state;
};

static const struct sheet_case SHEET_CASES[] = {
    /* Coast Guard news page on 33 CFR 175.310 (relayed): stamped 2013, out by 31 December
     * 2025. A finer stamp: older than twelve years, from its last day on. */
    {"us-recreational.yaml", USE_PRIVATE, "", "extinguisher-disposable", "2013", "", "",
	"", TASK_RENEW, NULL, "2025-12-31", "2025-12-31", "in-date"},
    {"us-recreational.yaml", USE_PRIVATE, "", "extinguisher-disposable", "2013", "", "",
	"", TASK_RENEW, NULL, "2026-01-01", "2025-12-31", "expired"},
    {"us-recreational.yaml", USE_PRIVATE, "", "extinguisher-disposable", "2014-05-10", "",
	"", "", TASK_RENEW, NULL, "2026-05-11", "2026-05-10", "expired"},
    /* 46 CFR 160.066-10 (read, edition of 2015): made in March 2024, 42 months: September 2027,
     * through the month, as a mark of it would be read. */
    {"us-recreational.yaml", USE_PRIVATE, "", "flare-red-aerial", "2024-03", "", "", "",
	TASK_RENEW, NULL, "2026-11-25", "2027-09-30", "in-date"},
    /* 46 CFR 25.30-10 since 22 August 2016 (relayed): maintenance yearly, a disposable one
     * too. */
    {"us-uninspected-passenger.yaml", USE_COMMERCIAL, "", "extinguisher-powder", "2020",
	"", "2025-11-20", "", TASK_SERVICE, NULL, "2026-11-25", "2026-11-20", "overdue"},
    {"us-uninspected-passenger.yaml", USE_COMMERCIAL, "", "extinguisher-disposable",
	"2020", "", "", "", TASK_SERVICE, "2026-03-10", "2026-11-25", "2027-03-10",
	"in-date"},
    /* 46 CFR 185.730(b) (read, edition of 2015): 12 months from initial packing, then from each
     * service. */
    {"us-small-passenger.yaml", USE_COMMERCIAL, "", "lifejacket-auto", "2025-06",
	"2026-01-10", "2026-03-15", "", TASK_SERVICE, NULL, "2026-11-25", "2027-01-10",
	"in-date"},
    {"us-small-passenger.yaml", USE_COMMERCIAL, "", "lifejacket-auto", "2025-06",
	"2026-01-10", "2026-03-15", "", TASK_SERVICE, "2026-12-20", "2027-01-01",
	"2027-12-20", "in-date"},
    /* 46 CFR Table 176.810(b)(2) (read): premix of foam every three years; the cylinder weighed
     * at each inspection, yearly. */
    {"us-small-passenger.yaml", USE_COMMERCIAL, "", "foam-premix", "2024-02-10", "", "",
	"", TASK_RENEW, NULL, "2026-11-25", "2027-02-10", "in-date"},
    {"us-small-passenger.yaml", USE_COMMERCIAL, "", "extinguisher-fixed", "2020", "", "",
	"2024-04-01", TASK_WEIGH, "2025-05-02", "2026-11-25", "2026-05-02", "overdue"},
    /* 46 CFR 185.726(b) (read): the launching appliance yearly. */
    {"us-small-passenger.yaml", USE_COMMERCIAL, "", "davit", "2019", "", "", "",
	TASK_INSPECT, "2026-02-01", "2026-11-25", "2027-02-01", "in-date"},
    /* RD 339/2021 (read): the compass card every five years in zones 1 and 2 (art 12.2(a));
     * rafts (6.4) and inflatable jackets (7.4) at the maker's interval, not known here; what is
     * not known is never in date. */
    {"spain-recreational.yaml", USE_PRIVATE, "zone-2", "compass", "", "", "",
	"2020-05-04", TASK_TEST, "2022-06-01", "2026-11-25", "2027-06-01", "in-date"},
    {"spain-recreational.yaml", USE_PRIVATE, "zone-2", "liferaft-valise", "2025-01",
	"2025-02-01", "", "", TASK_SERVICE, NULL, "2026-11-25", "", "date-unknown"},
    {"spain-recreational.yaml", USE_PRIVATE, "zone-2", "lifejacket-auto", "2025-01", "",
	"2026-02-01", "", TASK_SERVICE, "2026-09-01", "2026-11-25", "", "date-unknown"},
    /* DM 146/2008 art 52 (read): the maker's interval. */
    {"italy-private.yaml", USE_PRIVATE, "", "liferaft-valise", "2026-01-10", "",
	"2026-02-10", "", TASK_SERVICE, NULL, "2026-11-25", "", "date-unknown"},
    /* SOR/2010-91 (read): a flare four years from manufacture, s. 20(1); other gear as its
     * maker says, s. 5(1)(c). */
    {"canada-private.yaml", USE_PRIVATE, "", "flare-red-hand", "2023-05", "", "", "",
	TASK_RENEW, NULL, "2026-11-25", "2027-05-01", "in-date"},
    {"canada-private.yaml", USE_PRIVATE, "", "lifejacket-auto", "2025-01", "",
	"2026-02-01", "", TASK_SERVICE, NULL, "2026-11-25", "", "date-unknown"},
    /* C.R.C. c. 1436 s. 119(1) (read): 12 months, law or practice by her use. */
    {"canada-private.yaml", USE_COMMERCIAL, "", "liferaft-valise", "2022-01",
	"2025-12-10", "", "", TASK_SERVICE, NULL, "2026-11-25", "2026-12-10", "in-date"},
    /* NF S 61-919 (relayed): yearly, two months either side; further at five years; twenty
     * years, but for carbon dioxide. */
    {"france-private.yaml", USE_PRIVATE, "", "extinguisher-powder", "2020", "",
	"2025-10-01", "", TASK_SERVICE, NULL, "2026-12-01", "2026-10-01", "in-date"},
    {"france-private.yaml", USE_PRIVATE, "", "extinguisher-powder", "2020", "",
	"2025-10-01", "", TASK_SERVICE, NULL, "2026-12-02", "2026-10-01", "overdue"},
    {"france-private.yaml", USE_PRIVATE, "", "extinguisher-co2", "2022-04", "", "", "",
	TASK_TEST, NULL, "2026-11-25", "2027-04-01", "in-date"},
    {"france-private.yaml", USE_PRIVATE, "", "extinguisher-foam", "2006-04", "", "", "",
	TASK_RENEW, NULL, "2026-11-25", "2026-04-01", "life-expired"},
};

static struct stamp
stamp_or_none(const char *words)
{
	return words[0] == '\0' ? (struct stamp){0} : stamp_of(words);
}

TEST(the_sheets_give_the_days_of_the_texts_they_name)
{
	for (size_t i = 0; i < sizeof SHEET_CASES / sizeof SHEET_CASES[0]; i++) {
		const struct sheet_case *one = &SHEET_CASES[i];
		SCENE(scene, one->sheet);
		scene.periods[0].use = one->use;
		scene.periods[0].area = one->area;
		struct item *item = scene_item(&scene, one->kind);
		item->made = stamp_or_none(one->made);
		item->packed = stamp_or_none(one->packed);
		item->bought = stamp_or_none(one->bought);
		item->fitted = stamp_or_none(one->fitted);
		if (one->done != NULL) {
			scene_record(&scene, item, one->task, one->done, NULL);
		}
		const char *due = scene_due_day(&scene, item, one->task, one->today);
		const char *is = scene_state(&scene, item, one->task, one->today);
		if (strcmp(due, one->due) != 0 || strcmp(is, one->state) != 0) {
			fail_msg("case %zu, %s of %s: %s, %s", i, one->kind, one->sheet,
			    due, is);
		}
	}
}

/* 185.730 and 185.740 (read, edition of 2015): a raft, a jacket or a release may wait for the
 * next scheduled inspection, five months at most: an extension that was given is no longer
 * than that. The rule is the law's. */
TEST(what_may_wait_for_an_inspection_waits_five_months_at_most)
{
	static const struct {
		const char *kind;
		enum task task;
	} ROWS[] = {{"liferaft-canister", TASK_SERVICE},
	    {"lifejacket-auto", TASK_SERVICE}, {"hydrostatic-release", TASK_SERVICE}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		size_t count = 0;
		scene_open(&scene, "us-small-passenger.yaml");
		const struct rule *const *rules =
		    rulebook_for(scene.rulebook, ROWS[i].kind, &count);
		size_t found = 0;
		for (size_t j = 0; j < count; j++) {
			if (rules[j]->task == ROWS[i].task) {
				assert_int_equal(rules[j]->extension_months, 5);
				assert_int_equal(rules[j]->grade, GRADE_LAW);
				found++;
			}
		}
		assert_int_equal(found, 1);
	}
}

RUN_TESTS(NULL, NULL)
