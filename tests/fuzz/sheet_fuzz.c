/* Any bytes as a rule sheet: refused with words, or read into rules a rulebook takes. */
#include "rules/sheet.h"
#include "rules/sheet_check.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char CATALOGUE[] =
    "hazards:\n- {hazard: gas, carry: with care, dispose: with care}\n"
    "kinds:\n"
    "- {id: tether, name: tether, group: Lines}\n"
    "- {id: jackstay, name: jackstay, group: Lines}\n";

/* A sheet that was read must hold what sheet.h promises. */
static void
check_sheet(struct sheet *sheet)
{
	const struct sheet *sheets[] = {sheet};
	struct rulebook *book = NULL;
	struct fault fault = {0};
	size_t count = 0;
	if (!rulebook_new(sheets, 1, &book, &fault)) {
		abort();
	}
	(void)rulebook_for(book, "tether", &count);
	for (size_t i = 0; i < sheet->rule_count; i++) {
		const struct rule *rule = &sheet->rules[i];
		if (rule->clock_count == 0 || rule->kind_count == 0 ||
		    rule->source[0] == '\0') {
			abort();
		}
		(void)rule_is_routine(rule);
	}
	rulebook_free(book);
}

static const char BASE[] =
    "sheet: base\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules:\n"
    "- {id: a, kinds: [tether], task: renew, doer: owner, grade: practice,\n"
    "   clocks: [{from: [made], months: 12}], source: s, standing: memory}\n"
    "carriage:\n"
    "- {id: l, title: T, need: {points: 1}, source: s, standing: memory,\n"
    "   serves: [{kinds: [jackstay], points: 1}]}\n"
    "not-stated:\n"
    "- {id: n, subject: s, ask: a}\n";

/* The sheet that may be extended, by the name "base". */
static bool
find_base(void *context, const char *name, const struct sheet **out, struct fault *fault)
{
	if (strcmp(name, "base") != 0) {
		return fault_set(fault, FAULT_INPUT, "expected base");
	}
	*out = context;
	return true;
}

/* What is found in a sheet that was read must have words and a line. */
static void
look_over(const struct sheet *sheet, const uint8_t *data, size_t size)
{
	struct sheet_findings findings = {0};
	struct arena arena = {0};
	SCOPED_TEXT yaml = {0};
	text_add_bytes(&yaml, (const char *)data, size);
	sheet_check(sheet, &yaml, true, &arena, &findings);
	for (size_t i = 0; i < findings.count; i++) {
		const struct sheet_finding *finding = &findings.items[i];
		bool of_all = finding->about[0] == '\0';
		if (of_all != (finding->line == 0) || finding->what[0] == '\0') {
			abort();
		}
	}
	sheet_findings_clear(&findings);
	arena_clear(&arena);
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct kinds *kinds = NULL;
	struct sheet *sheet = NULL;
	struct sheet *base = NULL;
	struct fault fault = {0};
	if (!kinds_read("kinds", CATALOGUE, strlen(CATALOGUE), &kinds, &fault) ||
	    !sheet_read("base", BASE, strlen(BASE), kinds, NULL, &base, &fault)) {
		abort();
	}
	const struct sheet_library library = {find_base, base};
	if (sheet_read(
		"fuzz", (const char *)data, size, kinds, &library, &sheet, &fault)) {
		check_sheet(sheet);
		look_over(sheet, data, size);
	} else if (fault.kind == FAULT_NONE || fault.text[0] == '\0') {
		abort();
	}
	sheet_free(sheet);
	sheet_free(base);
	kinds_free(kinds);
	return 0;
}
