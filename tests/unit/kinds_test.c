#include "becket_test.h"
#include "data_file.h"

static void
assert_guess(const struct kinds *kinds, const char *words, const char *id)
{
	const struct kind *kind = kinds_guess(kinds, words);
	const char *got = kind == NULL ? "nothing" : kind->id;
	if (strcmp(got, id == NULL ? "nothing" : id) != 0) {
		fail_msg("\"%s\" gives %s, not %s", words == NULL ? "(no words)" : words,
		    got, id == NULL ? "nothing" : id);
	}
}

TEST(every_kind_of_the_design_is_there)
{
	static const char *const IDS[] = {"liferaft-canister", "liferaft-valise",
	    "raft-contents", "hydrostatic-release", "lifejacket-auto",
	    "lifejacket-manual", "lifejacket-foam", "gas-cylinder", "firing-head",
	    "lifejacket-light", "flare-red-hand", "flare-red-parachute",
	    "flare-white-hand", "smoke-orange-hand", "smoke-orange-buoyant",
	    "electric-distress-light", "distress-flag", "extinguisher-powder",
	    "extinguisher-foam", "extinguisher-water", "extinguisher-co2",
	    "extinguisher-clean-agent", "extinguisher-disposable", "extinguisher-fixed",
	    "epirb", "plb", "ais-beacon", "sart", "beacon-battery", "danbuoy-inflatable",
	    "lifebuoy", "lifebuoy-light", "recovery-module", "tether", "jackstay",
	    "first-aid-kit", "medicine", "gas-hose", "gas-regulator", "gas-detector",
	    "co-alarm", "smoke-alarm"};
	for (size_t i = 0; i < sizeof IDS / sizeof IDS[0]; i++) {
		const struct kind *kind = kinds_find(*state, IDS[i]);
		if (kind == NULL) {
			fail_msg("no kind %s", IDS[i]);
		}
		assert_string_equal(kind->id, IDS[i]);
	}
	assert_null(kinds_find(*state, "liferaft"));
	assert_null(kinds_find(*state, ""));
}

TEST(every_id_and_name_is_guessed_as_itself)
{
	for (size_t i = 0; i < kinds_count(*state); i++) {
		const struct kind *kind = kinds_at(*state, i);
		assert_guess(*state, kind->id, kind->id);
		assert_guess(*state, kind->name, kind->id);
	}
}

TEST(spreadsheet_spellings_are_guessed)
{
	static const struct {
		const char *words;
		const char *id;
	} ROWS[] = {
	    {"Hand Flares", "flare-red-hand"},            /* capitals, plural */
	    {"red  hand-held   flare", "flare-red-hand"}, /* hyphen, many blanks */
	    {"RED_HANDHELD_FLARE", "flare-red-hand"},     /* underscores */
	    {"  auto lifejacket ", "lifejacket-auto"},    /* blanks around */
	    {"Life-jacket auto", "lifejacket-auto"},      /* another order */
	    {"Fire extinguisher powder", "extinguisher-powder"},
	    {"HRU", "hydrostatic-release"},
	    {"EPIRB", "epirb"},
	    {"EPIRBs", "epirb"},
	    {"danbuoy", "danbuoy-inflatable"},
	    {"First Aid Kit", "first-aid-kit"},
	    {"gas hose", "gas-hose"}, /* "gas" keeps its s */
	    {"jacklines", "jackstay"},
	    /* a synonym among other words, in any order */
	    {"Life raft (canister)", "liferaft-canister"},
	    {"Liferaft, 4 man, valise", "liferaft-valise"},
	    {"auto life jacket 150N", "lifejacket-auto"},
	    {"Red hand flares x4", "flare-red-hand"},
	    {"parachute flares", "flare-red-parachute"},
	    {"fire extinguisher powder 2kg", "extinguisher-powder"},
	    {"Powder fire extinguisher 1kg", "extinguisher-powder"},
	    {"CO2 extinguisher 5kg", "extinguisher-co2"},
	    {"Smoke signal (buoyant)", "smoke-orange-buoyant"},
	    {"Liferaft hydrostatic release", "hydrostatic-release"},
	    {"HRU for EPIRB", "hydrostatic-release"},
	    {"PLB1", "plb"}, /* a number at the word's end */
	    {"EPIRB Quorl", "epirb"},
	    {"EPIRB battery 2024", "beacon-battery"}, /* the longer one wins */
	    {"Lifejacket light (spare)", "lifejacket-light"},
	    {"liferaft pack C", "raft-contents"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_guess(*state, ROWS[i].words, ROWS[i].id);
	}
}

TEST(what_fits_two_kinds_is_not_guessed)
{
	assert_guess(*state, "liferaft", NULL); /* canister or valise */
	assert_guess(*state, "Life Raft", NULL);
	assert_guess(*state, "fire extinguisher", NULL);
	assert_guess(*state, "lifejacket", NULL);
	assert_guess(*state, "orange smoke", NULL);
	assert_guess(*state, "orange smoke x2", NULL);
	assert_guess(*state, "4 hand, 2 parachute flares", NULL);
	assert_guess(*state, "white parachute flare", NULL);
	assert_guess(*state, "auto lifejacket with light", NULL);
	assert_guess(*state, "First aid kit and tablets", NULL);
	assert_guess(*state, "HRU and EPIRB", NULL);
	assert_guess(*state, "anchor", NULL);
	assert_guess(*state, "", NULL);
	char endless[400];
	memset(endless, 'x', sizeof endless - 1);
	endless[sizeof endless - 1] = '\0';
	assert_guess(*state, endless, NULL);
}

/* Words that name a kind but are about something else. */
TEST(what_belongs_to_a_kind_is_not_that_kind)
{
	assert_guess(*state, "EPIRB bracket", NULL);
	assert_guess(*state, "Danbuoy light", NULL);
	assert_guess(*state, "hand flares + torch", NULL);
	assert_guess(*state, "no EPIRB", NULL);
	assert_guess(*state, "voltage regulator", NULL);
	assert_guess(*state, "smoke hood", NULL);
	assert_guess(*state, "EPIRB (sold)", NULL);
	assert_guess(*state, "EPIRB 406 (dead)", NULL);
	assert_guess(*state, "PLB training dummy", NULL);
	assert_guess(*state, "Powder extinguisher instructions", NULL);
	assert_guess(*state, "Tasche f\xC3\xBCr PLB", NULL);
	assert_guess(*state, "Pile PLB", NULL);
	assert_guess(*state, "Batteri til PLB", NULL);
	assert_guess(*state, "Halterung f\u00FCr Rettungsring", NULL);
	assert_guess(*state, "H\u00FClle EPIRB", NULL);
	assert_guess(*state, "Support extincteur \u00E0 poudre", NULL);
	assert_guess(*state, "Utl\u00F8ser EPIRB", NULL);
	assert_guess(*state, "Funda para aro salvavidas", NULL);
	assert_guess(*state, "Feuerl\u00F6scher", NULL); /* of which sort? */
}

TEST(other_languages_are_read_with_and_without_their_accents)
{
	assert_guess(*state, "EPIRB-Batterie", "beacon-battery");
	assert_guess(*state, "PULVERL\u00D6SCHER 2 kg", "extinguisher-powder");
	assert_guess(*state, "Automatik-Rettungsweste", "lifejacket-auto");
	assert_guess(*state, "Handfackel wei\u00DF", "flare-white-hand");
	assert_guess(*state, "Gilets de sauvetage automatiques", "lifejacket-auto");
	assert_guess(*state, "fusee parachute", "flare-red-parachute");
	assert_guess(*state, "R\u00F8dt h\u00E5ndbluss", "flare-red-hand");
	assert_guess(*state, "livboye", "lifebuoy");
	assert_guess(*state, "Botiqu\u00EDn", "first-aid-kit");
	assert_guess(*state, "estintore a polvere", "extinguisher-powder");
}

TEST(why_a_kind_cannot_be_told_is_said)
{
	static const struct {
		const char *words;
		const char *says;
	} ROWS[] = {
	    {"liferaft",
		"\"liferaft\" could be liferaft-canister or liferaft-valise; say which"},
	    {"Orange smoke x2", "\"Orange smoke x2\" could be smoke-orange-hand or "
				"smoke-orange-buoyant; say which"},
	    {"epirp", "\"epirp\" is no kind in the catalogue; did you mean epirb?"},
	    {"sextant",
		"\"sextant\" is no kind in the catalogue, nor near one; \"becket help "
		"kinds\" lists them, and other-gear stands for gear no rule speaks of"},
	    {"lifejaket-auto",
		"\"lifejaket-auto\" is no kind in the catalogue; did you mean "
		"lifejacket-auto?"},
	    {"", "\"\" is no kind in the catalogue, nor near one; \"becket help kinds\" "
		 "lists them, and other-gear stands for gear no rule speaks of"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		assert_null(kinds_tell(*state, ROWS[i].words, &fault));
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_string_equal(fault.text, ROWS[i].says);
	}
}

TEST(dangerous_kinds_carry_their_cautions)
{
	const struct kind *flare = kinds_find(*state, "flare-red-parachute");
	assert_int_equal(flare->hazard, HAZARD_PYROTECHNIC);
	assert_string_equal(kinds_disposal_caution(*state, flare->hazard),
	    "Never fire it to test it or be rid of it; never put it in a bin, the sea or the "
	    "post. Ask who in this country takes time-expired flares.");
	assert_int_equal(kinds_find(*state, "liferaft-canister")->hazard, HAZARD_GAS);
	assert_string_equal(kinds_carry_caution(*state, HAZARD_GAS),
	    "Compressed gas: dangerous goods in post and air freight; by hand, or by a "
	    "carrier who accepts it. Never open, pull or inflate a packed raft yourself.");
	assert_int_equal(kinds_find(*state, "epirb")->hazard, HAZARD_LITHIUM);
	assert_string_equal(kinds_disposal_caution(*state, HAZARD_LITHIUM),
	    "Take a beacon off the register first. Whoever disposes of it disconnects the "
	    "battery, so that it raises no false alarm; hand the battery to whoever takes "
	    "lithium batteries there.");
	assert_int_equal(kinds_find(*state, "tether")->hazard, HAZARD_NONE);
	assert_string_equal(kinds_carry_caution(*state, HAZARD_NONE), "");
	assert_string_equal(kinds_disposal_caution(*state, HAZARD_NONE), "");
}

TEST(groups_stand_together)
{
	for (size_t i = 1; i < kinds_count(*state); i++) {
		const char *group = kinds_at(*state, i)->group;
		if (strcmp(group, kinds_at(*state, i - 1)->group) == 0) {
			continue;
		}
		for (size_t j = 0; j < i; j++) {
			assert_string_not_equal(group, kinds_at(*state, j)->group);
		}
	}
}

#define HAZARDS "hazards:\n- {hazard: gas, carry: c, dispose: d}\n"

/* As the headings of data/kinds.yaml have it. */
TEST(a_group_is_meant_by_its_name_or_its_first_word)
{
	static const char *const ROWS[][2] = {
	    {"Flares and smokes", "Flares and smokes"},
	    {"flares", "Flares and smokes"},
	    {"FIRE", "Fire"},
	    {"other", "Other"},
	    {"other distress signals", "Other distress signals"},
	    {"gas", "Gas and alarms"},
	    {"flare", NULL},
	    {"Flares and", NULL},
	    {"", NULL},
	};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const char *group = kinds_group(*state, ROWS[i][0]);
		const char *got = group == NULL ? "nothing" : group;
		assert_string_equal(got, ROWS[i][1] == NULL ? "nothing" : ROWS[i][1]);
	}
}

TEST(a_bad_catalogue_is_refused_with_line_and_field)
{
	static const struct {
		const char *yaml;
		const char *says;
	} ROWS[] = {
	    {HAZARDS
		"kinds:\n- {id: a, name: b, group: c}\n- {id: a, name: b, group: c}\n",
		"k.yaml: line 5, field id: found \"a\", expected an id that no kind "
		"above has"},
	    {HAZARDS "kinds:\n- {id: a, name: b, group: c}\n"
		     "- {id: d, name: e, group: f, working-parts: [gone]}\n",
		"k.yaml: line 5, field working-parts, entry 1: found \"gone\", expected "
		"another kind of the catalogue"},
	    {HAZARDS "kinds:\n- id: a\n  name: b\n  group: c\n  hazard: gass\n",
		"k.yaml: line 7, field hazard: found \"gass\", expected one of: none, "
		"pyrotechnic, gas, lithium, medicine"},
	    {HAZARDS "kinds:\n- id: a\n  name: b\n  group: c\n  hazard: lithium\n",
		"k.yaml: line 7, field hazard: found \"lithium\", expected a hazard listed "
		"under hazards"},
	    {HAZARDS "kinds:\n- id: a\n  name: b\n",
		"k.yaml: line 4, field group: found nothing, expected a single value"},
	    {HAZARDS "kinds:\n- id: a\n  name: b\n  colour: red\n  group: c\n",
		"k.yaml: line 6, field colour: found an unknown key, expected one of: id, "
		"name, group, subject, hazard, inside, service-ashore, working-parts, "
		"synonyms"},
	    {HAZARDS "kinds: []\n",
		"k.yaml: line 3, field kinds: found nothing, expected at least one kind"},
	    {"", "k.yaml: line 1: found nothing, expected keys with values"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct kinds *kinds = NULL;
		struct fault fault = {0};
		assert_false(kinds_read(
		    "k.yaml", ROWS[i].yaml, strlen(ROWS[i].yaml), &kinds, &fault));
		assert_null(kinds);
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_string_equal(fault.text, ROWS[i].says);
	}
}

RUN_TESTS(data_file_open_kinds, data_file_close_kinds)
