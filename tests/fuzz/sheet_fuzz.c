/* Any bytes as a rule sheet: refused with words, or read into rules a rulebook takes. */
#include "rules/sheet.h"

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

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct kinds *kinds = NULL;
	struct sheet *sheet = NULL;
	struct fault fault = {0};
	if (!kinds_read("kinds", CATALOGUE, strlen(CATALOGUE), &kinds, &fault)) {
		abort();
	}
	if (sheet_read("fuzz", (const char *)data, size, kinds, NULL, &sheet, &fault)) {
		check_sheet(sheet);
	} else if (fault.kind == FAULT_NONE || fault.text[0] == '\0') {
		abort();
	}
	sheet_free(sheet);
	kinds_free(kinds);
	return 0;
}
