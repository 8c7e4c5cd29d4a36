/* The inventory CSV: what is read, what is refused and where, what is written. */
#include "becket_test.h"
#include "csv_scene.h"

#include <stdio.h>
#include <string.h>

struct file {
	struct kinds *kinds;
	struct arena arena;
	struct csv_rows rows;
	struct csv_batch all;  /* of the rows, as they were read last */
	struct csv_batch book; /* of those that read_book read */
	struct csv_options options;
	struct fault fault;
};

static int
set_up(void **state)
{
	static const struct file EMPTY = {0};
	struct file *file = test_malloc(sizeof *file);
	*file = EMPTY;
	file->options.currency = "EUR";
	file->kinds = csv_scene_kinds();
	*state = file;
	return file->kinds == NULL ? -1 : 0;
}

static void
forget(struct file *file)
{
	csv_batch_clear(&file->all);
	csv_rows_clear(&file->rows);
}

static int
tear_down(void **state)
{
	struct file *file = *state;
	forget(file);
	csv_batch_clear(&file->book);
	arena_clear(&file->arena);
	kinds_free(file->kinds);
	test_free(file);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct file, file, name, set_up, tear_down)

static bool
read_bytes(struct file *file, const char *bytes, size_t length)
{
	const struct csv_source source = {
	    .name = "boats.csv", .bytes = bytes, .length = length};
	return csv_read_inventory(&source, file->kinds, &file->options, &file->arena,
		   &file->rows, &file->fault) &&
	       csv_scene_all(&file->rows, &file->all, &file->fault);
}

/* Reads a file that must be acceptable, of so many rows. */
static void
read_good(struct file *file, const char *bytes, size_t count)
{
	forget(file);
	if (!read_bytes(file, bytes, strlen(bytes))) {
		fail_msg("refused: %s", file->fault.text);
	}
	assert_int_equal(file->rows.count, count);
}

/* Reads a file that must be refused, with words that start and go on like this. */
static void
read_bad(struct file *file, const char *bytes, const char *start, const char *part)
{
	forget(file);
	if (read_bytes(file, bytes, strlen(bytes))) {
		fail_msg("accepted: %s", bytes);
	}
	assert_int_equal(file->fault.kind, FAULT_INPUT);
	assert_int_equal(file->rows.count, 0);
	if (strncmp(file->fault.text, start, strlen(start)) != 0 ||
	    strstr(file->fault.text, part) == NULL) {
		fail_msg("said: %s\nexpected: %s ... %s", file->fault.text, start, part);
	}
}

static void
assert_stamp(struct stamp stamp, const char *expected)
{
	char text[STAMP_TEXT_SIZE];
	assert_string_equal(stamp_text(stamp, text), expected);
}

PREPARED_TEST(every_column_reaches_its_field)
{
	read_good(file,
	    "vessel,tag,kind,description,serial,quantity,place,made,packed,bought,fitted,"
	    "expires,served,task,next,station,certificate,part_of,price,notes,state,paid\n"
	    "Quillfish,CY-1,gas-cylinder,33 g,S9,2,locker,2018,2018-06,2018-07-02,"
	    "2018-07-14~,before 2027-06,2024-11-18,weigh,2025-11,Loft,C-7,LJ-1,19.5,dry,"
	    "reserve,4\n",
	    1);
	const struct csv_row *row = &file->all.items[0];
	const struct item_change *change = &row->change;
	assert_int_equal(row->line, 2);
	assert_string_equal(change->vessel, "Quillfish");
	assert_string_equal(change->tag, "CY-1");
	assert_string_equal(change->kind, "gas-cylinder");
	assert_string_equal(change->description, "33 g");
	assert_string_equal(change->serial, "S9");
	assert_int_equal(change->quantity, 2);
	assert_string_equal(change->place, "locker");
	assert_stamp(change->made, "2018");
	assert_stamp(change->packed, "2018-06");
	assert_stamp(change->bought, "2018-07-02");
	assert_stamp(change->fitted, "2018-07-14~");
	assert_stamp(change->expires, "before 2027-06");
	assert_string_equal(change->part_of, "LJ-1");
	assert_int_equal(change->price_minor, 1950);
	assert_string_equal(change->notes, "dry");
	assert_int_equal(change->state, PLACE_RESERVE);
	assert_true(row->has_record);
	assert_int_equal(row->record.task, TASK_WEIGH);
	assert_stamp(row->record.on, "2024-11-18");
	assert_stamp(row->record.next, "2025-11");
	assert_string_equal(row->record.station, "Loft");
	assert_string_equal(row->record.certificate, "C-7");
	assert_int_equal(row->record.price_minor, 400);
}

PREPARED_TEST(blank_cells_empty_their_fields_and_missing_columns_leave_them_alone)
{
	read_good(file, "tag,vessel,expires,quantity,state,price\nCY-1,,,,,\n", 1);
	const struct item_change *change = &file->all.items[0].change;
	assert_int_equal(change->set, 1U << FIELD_EXPIRES | 1U << FIELD_QUANTITY |
					  1U << FIELD_STATE | 1U << FIELD_PRICE);
	assert_int_equal(change->expires.precision, STAMP_NONE);
	assert_int_equal(change->quantity, 1);
	assert_int_equal(change->state, PLACE_ABOARD);
	assert_int_equal(change->price_minor, -1);
	assert_false(file->all.items[0].has_record);
}

PREPARED_TEST(headers_are_known_in_their_common_spellings)
{
	read_good(file,
	    "Yacht;Item;Serial No.;QTY;Where;Date of manufacture;Expiry date;Last "
	    "serviced;Next due;Agent;Parent;Cost;Remarks\n"
	    "Quillfish;gas-cylinder;S9;2;locker;2018;2027;2024;2026;Loft;X-1;5;n\n",
	    1);
	const struct csv_row *row = &file->all.items[0];
	assert_string_equal(row->change.vessel, "Quillfish");
	assert_string_equal(row->change.serial, "S9");
	assert_int_equal(row->change.quantity, 2);
	assert_string_equal(row->change.place, "locker");
	assert_stamp(row->change.made, "2018");
	assert_stamp(row->change.expires, "2027");
	assert_stamp(row->record.on, "2024");
	assert_stamp(row->record.next, "2026");
	assert_string_equal(row->record.station, "Loft");
	assert_string_equal(row->change.part_of, "X-1");
	assert_int_equal(row->change.price_minor, 500);
	assert_string_equal(row->change.notes, "n");
	read_good(
	    file, "Boat,Item,Mfg date,Brand,Unit price\nQ,gas-cylinder,2018,Loft,5\n", 1);
	assert_stamp(file->all.items[0].change.made, "2018");
	assert_string_equal(file->all.items[0].change.make, "Loft");
	assert_int_equal(file->all.items[0].change.price_minor, 500);
}

/* "Use by 06/2027" ends the day before June (see stamp.h); a header says it for its cells. */
PREPARED_TEST(a_column_headed_use_by_holds_use_by_dates)
{
	read_good(file, "vessel,kind,Use by\nQuillfish,gas-cylinder,06/2027\n", 1);
	struct stamp expires = file->all.items[0].change.expires;
	assert_int_equal(stamp_good_through(expires), day_from_civil(2027, 5, 31));
	read_good(file, "vessel,kind,Expiry\nQuillfish,gas-cylinder,06/2027\n", 1);
	expires = file->all.items[0].change.expires;
	assert_int_equal(stamp_good_through(expires), day_from_civil(2027, 6, 30));
}

/* So does a header that no column of ours has, and what a header is mapped to; and the next date
 * of a paper ends likewise. */
PREPARED_TEST(a_mapped_column_keeps_the_words_for_its_dates)
{
	static const struct {
		const char *header, *ours;
		int32_t month, day; /* the last good day of 06/2027 */
	} CASES[] = {
	    {"Replace by", "expires", 5, 31},
	    {"Change-by (month)", "expires", 5, 31},
	    {"Renew before", "expires", 5, 31},
	    {"Replace\nby", "expires", 5, 31},
	    {"Replace\302\240by", "expires", 5, 31},
	    {"ReplaceBy", "expires", 5, 31},
	    {"Rubylith", "expires", 6, 30},
	    {"Datum", "use by", 5, 31},
	    {"Datum", "Expiry date", 6, 30},
	    {"Next visit by", "next", 5, 31},
	    {"Next visit", "next", 6, 30},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		const struct csv_mapping mapping = {
		    CASES[i].header, CASES[i].ours, false};
		SCOPED_TEXT list = {0};
		text_add_format(&list,
		    "vessel,kind,served,\"%s\"\nQ,gas-cylinder,2024,06/2027\n",
		    CASES[i].header);
		file->options.mappings = &mapping;
		file->options.mapping_count = 1;
		read_good(file, text_string(&list), 1);
		const struct csv_row *row = &file->all.items[0];
		bool next = strcmp(CASES[i].ours, "next") == 0;
		assert_int_equal(
		    stamp_good_through(next ? row->record.next : row->change.expires),
		    day_from_civil(2027, CASES[i].month, CASES[i].day));
	}
}

PREPARED_TEST(other_headers_can_be_mapped_or_ignored)
{
	const struct csv_mapping mappings[] = {
	    {"Shelf", "place", false}, {"colour", "ignore", false}};
	file->options = (struct csv_options){.currency = "EUR",
	    .mappings = mappings,
	    .mapping_count = 2,
	    .vessel = "Quillfish"};
	read_good(file, "kind,Shelf,Colour\ngas-cylinder,left,grey\n", 1);
	assert_string_equal(file->all.items[0].change.place, "left");
	assert_string_equal(file->all.items[0].change.vessel, "Quillfish");
	assert_string_equal(
	    text_string(&file->rows.notes), "column \"Colour\" ignored\n");
}

PREPARED_TEST(mappings_must_fit_the_file)
{
	const struct csv_mapping absent[] = {{"Shelf", "place", false}};
	file->options = (struct csv_options){
	    .mappings = absent, .mapping_count = 1, .vessel = "Q", .currency = "EUR"};
	read_bad(file, "kind\ngas-cylinder\n", "boats.csv: line 1: ", "headed \"Shelf\"");
	const struct csv_mapping wrong[] = {{"kind", "colour", false}};
	file->options.mappings = wrong;
	read_bad(
	    file, "kind\ngas-cylinder\n", "boats.csv: line 1: ", "no column of ours");
}

PREPARED_TEST(kinds_are_guessed_and_the_guess_is_told_once)
{
	read_good(file, "vessel,kind\nQ,Red flares\nQ,Red flares\nQ,flare-red-hand\n", 3);
	assert_string_equal(file->all.items[1].change.kind, "flare-red-hand");
	assert_string_equal(text_string(&file->rows.notes),
	    "line 2: kind \"Red flares\" taken as flare-red-hand\n");
}

PREPARED_TEST(a_loose_header_is_the_description_beside_one_that_means_the_kind)
{
	static const char *const LOOSE[] = {"Item", "Equipment", "gear", "Name"};
	static const char *const PLAIN[] = {"Type", "kind", "CATEGORY"};
	for (size_t i = 0; i < 12; i++) {
		SCOPED_TEXT bytes = {0};
		text_add_format(&bytes, "vessel,%s,%s\nQ,Left one,gas-cylinder\n",
		    LOOSE[i / 3], PLAIN[i % 3]);
		read_good(file, text_string(&bytes), 1);
		assert_string_equal(file->all.items[0].change.kind, "gas-cylinder");
		assert_string_equal(file->all.items[0].change.description, "Left one");
	}
	for (size_t i = 0; i < 4; i++) {
		SCOPED_TEXT bytes = {0};
		text_add_format(&bytes, "vessel,%s\nQ,gas-cylinder\n", LOOSE[i]);
		read_good(file, text_string(&bytes), 1);
		assert_string_equal(file->all.items[0].change.kind, "gas-cylinder");
	}
	read_good(file, "vessel,item,name\nQ,gas-cylinder,Left one\n", 1);
	assert_string_equal(file->all.items[0].change.description, "Left one");
}

PREPARED_TEST(loose_headers_that_stay_ambiguous_are_refused)
{
	read_bad(file, "vessel,item,gear\nQ,gas-cylinder,x\n",
	    "boats.csv: line 1, column number 3: \"gear\" means kind", "column number 2");
	read_bad(file, "vessel,item,type,model\nQ,x,gas-cylinder,y\n",
	    "boats.csv: line 1, column number 4: \"model\" means description",
	    "--map \"model=notes\"");
}

PREPARED_TEST(a_description_tells_the_kind_where_its_own_words_do_not)
{
	read_good(file,
	    "vessel,kind,description\nQ,Signals,Red flares 2022\nQ,,Red flare\n", 2);
	assert_string_equal(file->all.items[0].change.kind, "flare-red-hand");
	assert_string_equal(file->all.items[1].change.kind, "flare-red-hand");
	assert_string_equal(text_string(&file->rows.notes),
	    "line 2: kind \"Signals\" taken as flare-red-hand for its description \"Red "
	    "flares 2022\"\n"
	    "line 3: kind \"\" taken as flare-red-hand for its description \"Red flare\"\n");
	read_bad(file, "vessel,kind,description\nQ,Signals,Rags\n",
	    "boats.csv: line 2, column kind: \"Signals\" is no kind", "catalogue");
	/* A tag's item keeps its kind, whatever its description says. */
	read_good(file, "tag,kind,description\nA-1,,Red flare\n", 1);
	assert_string_equal(file->all.items[0].change.kind, "");
}

PREPARED_TEST(words_for_a_kind_are_kept_where_there_is_no_description)
{
	read_good(file, "vessel,item\nQ,Red flares (2022)\nQ,gas-cylinder\n", 2);
	assert_string_equal(file->all.items[0].change.kind, "flare-red-hand");
	assert_string_equal(file->all.items[0].change.description, "Red flares (2022)");
	assert_string_equal(file->all.items[1].change.description, "");
}

PREPARED_TEST(whose_gear_it_is_is_told_once_beside_all_else)
{
	static const char LIST[] = "item,expires\nred flare,31/02/2022\nsomething,\n";
	read_bad(file, LIST,
	    "boats.csv: 3 things are wrong, so nothing is taken from it:\n"
	    "line 1: no column says whose gear it is; --vessel NAME does for all rows\n",
	    "February 2022 has no day 31");
	read_bad(file, "item,expires,her\nred flare,2027,Q\n",
	    "boats.csv: 2 things are wrong",
	    "or --map \"HEADER=vessel\" where one of those above is the boat");
	file->options.vessel = "Q";
	read_bad(file, LIST, "boats.csv: 2 things are wrong", "\"something\" is no kind");
}

PREPARED_TEST(a_list_of_descriptions_alone_has_its_kinds_there)
{
	read_good(file, "Navire,D\xC3\xA9signation\nQ,red flare\n", 1);
	assert_string_equal(file->all.items[0].change.kind, "flare-red-hand");
	read_good(file, "vessel,name,description\nQ,red flare,SOLAS\n", 1);
	assert_string_equal(file->all.items[0].change.kind, "flare-red-hand");
	assert_string_equal(file->all.items[0].change.description, "SOLAS");
}

PREPARED_TEST(column_names_that_are_not_known_are_told_not_the_title_above)
{
	read_bad(file, "Her list,,\n,,\nDing,Wieviel,Baujahr\nraft,1,2019\n",
	    "boats.csv: 2 things are wrong, so nothing is taken from it:\n"
	    "line 3, column number 1: \"Ding\" is no column",
	    "line 3, column number 2: \"Wieviel\" is no column");
	read_bad(file, "Her list,,\nDing,Wieviel,Jahrgang\nraft,1,2019\n",
	    "boats.csv: 3 things are wrong", "line 2, column number 3: \"Jahrgang\"");
}

PREPARED_TEST(what_words_mean_holds_for_them_with_how_many_there_are)
{
	static const struct csv_mapping PYROS[] = {
	    {.theirs = "Pyros", .ours = "flare-red-hand"},
	    {.theirs = "Pyros (3)", .ours = "gas-cylinder"}};
	static const char LIST[] = "vessel,item\nQ,Pyros (6)\nQ,4 x pyros\nQ,Pyros x2\n"
				   "Q,Pyros (x5)\nQ,Pyros (3)\n";
	static const int MANY[] = {6, 4, 2, 5, 3};
	file->options.quantities = QUANTITIES_FROM_WORDS;
	/* it is asked about once, without a number */
	read_bad(file, LIST, "boats.csv: 5 things are wrong",
	    "--means \"Pyros=KIND\"; where it is no gear: --leave-out 2)\n"
	    "    and 4 more like it: lines 3, 4, 5, 6");
	file->options.meanings = PYROS;
	file->options.meaning_count = 2;
	read_good(file, LIST, 5);
	for (size_t i = 0; i < 5; i++) {
		const struct item_change *change = &file->all.items[i].change;
		assert_string_equal(
		    change->kind, i == 4 ? "gas-cylinder" : "flare-red-hand");
		assert_int_equal(change->quantity, MANY[i]);
	}
}

PREPARED_TEST(a_number_among_the_words_is_asked_about_when_no_quantity_is_given)
{
	static const char *const SAYS[] = {"Red flare x4", "4 x red flare",
	    "red flare (X 4)", "4x red flare", "Red flare (4)"};
	static const char *const SAYS_NOT[] = {
	    "red flare 2022", "Red flare hex 4", "red flare (2022)", "1 x red flare"};
	for (size_t i = 0; i < sizeof SAYS / sizeof SAYS[0]; i++) {
		SCOPED_TEXT bytes = {0};
		text_add_format(&bytes, "vessel,kind\nQ,%s\n", SAYS[i]);
		file->options.quantities = QUANTITIES_ASKED;
		read_bad(file, text_string(&bytes), "boats.csv: line 2: \"",
		    "seems to say 4 of them, and no column does; --quantities from-words");
		file->options.quantities = QUANTITIES_FROM_WORDS;
		read_good(file, text_string(&bytes), 1);
		assert_int_equal(file->all.items[0].change.quantity, 4);
		file->options.quantities = QUANTITIES_ONE;
		read_good(file, text_string(&bytes), 1);
		assert_int_equal(file->all.items[0].change.quantity, 1);
	}
	file->options.quantities = QUANTITIES_ASKED;
	for (size_t i = 0; i < sizeof SAYS_NOT / sizeof SAYS_NOT[0]; i++) {
		SCOPED_TEXT bytes = {0};
		text_add_format(&bytes, "vessel,kind\nQ,%s\n", SAYS_NOT[i]);
		read_good(file, text_string(&bytes), 1);
		assert_int_equal(file->all.items[0].change.quantity, 1);
	}
	read_good(file, "tag,kind\nA-1,Red flare x4\n", 1); /* it is left alone */
	assert_false(file->all.items[0].change.set & 1U << FIELD_QUANTITY);
	read_good(file, "vessel,kind,qty\nQ,Red flare x4,5\n", 1);
	assert_int_equal(file->all.items[0].change.quantity, 5);
}

PREPARED_TEST(a_number_of_things_may_be_a_word_or_have_a_unit)
{
	static const struct {
		const char *cell;
		int quantity;
	} ROWS[] = {{"6 pcs", 6}, {"x4", 4}, {"2x", 2}, {"4 Stk.", 4}, {"six", 6},
	    {"Zw\303\266lf", 12}, {"a pair", 2}, {"3,0", 3}};

	static const char *const BAD[] = {
	    "4 boxes", "4 x 2", "x", "some", "4-6", "2 of 3", "-1"};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT bytes = {0};
		text_add_format(&bytes, "vessel,kind,quantity\nQ,gas-cylinder,\"%s\"\n",
		    ROWS[i].cell);
		read_good(file, text_string(&bytes), 1);
		assert_int_equal(file->all.items[0].change.quantity, ROWS[i].quantity);
	}
	for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
		SCOPED_TEXT bytes = {0};
		text_add_format(
		    &bytes, "vessel,kind,quantity\nQ,gas-cylinder,%s\n", BAD[i]);
		read_bad(file, text_string(&bytes),
		    "boats.csv: line 2, column quantity: ", "whole number");
	}
}

PREPARED_TEST(a_price_that_could_be_two_is_asked_about_and_read_as_told)
{
	static const char POINT[] = "vessel,kind,price\nQ,gas-cylinder,EUR 1.250\n";
	static const char COMMA[] = "vessel;kind;price\nQ;gas-cylinder;1,250\n";
	file->options.decimals = DECIMALS_ASKED;
	read_bad(file, POINT, "boats.csv: line 2, column price: \"EUR 1.250\"",
	    "--decimals comma makes it EUR 1250.00");
	read_bad(file, COMMA, "boats.csv: line 2, column price: \"1,250\"",
	    "--decimals point makes it EUR 1250.00");
	file->options.decimals = DECIMALS_COMMA;
	read_good(file, POINT, 1);
	assert_int_equal(file->all.items[0].change.price_minor, 125000);
	/* Three decimals, and the euro has two. */
	read_bad(file, COMMA, "boats.csv: line 2, column price: ", "is no price");
	file->options.decimals = DECIMALS_POINT;
	read_good(file, COMMA, 1);
	assert_int_equal(file->all.items[0].change.price_minor, 125000);
	read_bad(file, POINT, "boats.csv: line 2, column price: ", "is no price");
}

PREPARED_TEST(a_heading_within_the_list_is_no_gear)
{
	file->options.vessel = "Q";
	read_bad(file, "kind,quantity\nGas cylinder:,4\n",
	    "boats.csv: line 2, column kind: ", "--leave-out 2 passes over it");
	read_bad(file, "kind,quantity,made\ngas-cylinder,,\n",
	    "boats.csv: line 2, column kind: ", "seems to be a heading");
	read_good(file, "kind,quantity,made\ngas-cylinder,1,\ngas-cylinder,,2021\n", 2);
	read_good(file, "kind,made\ngas-cylinder,\n", 1);
}

PREPARED_TEST(a_serial_number_may_be_said_not_to_be_known)
{
	read_good(file, "vessel,kind,serial\nQ,gas-cylinder,n/a\nQ,gas-cylinder,?\n", 2);
	assert_string_equal(file->all.items[0].change.serial, "");
	assert_string_equal(file->all.items[1].change.serial, "");
}

PREPARED_TEST(columns_of_notes_are_kept_one_behind_the_other)
{
	static const struct csv_mapping MINE[] = {{"Shelf", "notes", false}};
	file->options.mappings = MINE;
	file->options.mapping_count = 1;
	read_good(file,
	    "vessel,kind,notes,Shelf,Remarks\nQ,gas-cylinder,new,,red\n"
	    "Q,gas-cylinder,,top,blue\n",
	    2);
	assert_string_equal(file->all.items[0].change.notes, "new; red");
	assert_string_equal(file->all.items[1].change.notes, "top; blue");
}

PREPARED_TEST(a_sum_at_the_end_is_asked_about_and_left_out_when_told)
{
	static const char LIST[] = "vessel,kind,quantity\nQ,gas-cylinder,4\n"
				   "Q,Total red flares:,4\n,,\n";
	static const struct csv_lines THIRD[] = {{3, 3}};
	static const struct csv_lines FIFTH[] = {{3, 3}, {5, 6}};
	static const struct csv_mapping GEAR[] = {
	    {"Total red flares:", "flare-red-hand", false}};
	read_bad(file, LIST, "boats.csv: line 3, column kind: \"Total red flares:\"",
	    "--leave-out 3 passes over it");
	file->options.left_out = THIRD;
	file->options.left_out_count = 1;
	read_good(file, LIST, 1);
	assert_string_equal(file->all.items[0].change.kind, "gas-cylinder");
	file->options.left_out = FIFTH;
	file->options.left_out_count = 2;
	read_bad(file, LIST, "boats.csv: line 5: --leave-out 5", "no row starts there");
	file->options.left_out_count = 0;
	file->options.meanings = GEAR;
	file->options.meaning_count = 1;
	read_good(file, LIST, 2);
	assert_string_equal(file->all.items[1].change.kind, "flare-red-hand");
}

PREPARED_TEST(a_price_paid_beside_the_day_it_was_bought_is_no_services)
{
	static const struct csv_mapping TASKS[] = {{"Paid", "paid", false}};
	/* All our own columns: each is what its name says. */
	read_good(file,
	    "vessel,kind,bought,paid,served,price\n"
	    "Q,gas-cylinder,2024,12.00,2025-03-01,40\n",
	    1);
	assert_int_equal(file->all.items[0].record.price_minor, 1200);
	assert_int_equal(file->all.items[0].change.price_minor, 4000);
	static const char LIST[] = "vessel,kind,bought,Paid,served\n"
				   "Q,gas-cylinder,2024,12.00,2025-03-01\n";
	read_good(file, LIST, 1);
	assert_int_equal(file->all.items[0].record.price_minor, -1);
	assert_int_equal(file->all.items[0].change.price_minor, 1200);
	assert_non_null(strstr(text_string(&file->rows.notes), "price of a new one"));
	/* Beside the day of the task it is the task's; without any such day it can't be. */
	read_good(file,
	    "vessel,kind,bought,served,Paid\n"
	    "Q,gas-cylinder,2024,2025-03-01,12.00\n",
	    1);
	assert_int_equal(file->all.items[0].record.price_minor, 1200);
	read_good(file, "vessel,kind,Paid\nQ,gas-cylinder,12.00\n", 1);
	assert_int_equal(file->all.items[0].change.price_minor, 1200);
	file->options.mappings = TASKS;
	file->options.mapping_count = 1;
	read_good(file, LIST, 1);
	assert_int_equal(file->all.items[0].record.price_minor, 1200);
}

PREPARED_TEST(a_whole_number_may_have_decimals_of_nought)
{
	read_good(file, "vessel,kind,quantity\nQ,gas-cylinder,4.0\n", 1);
	assert_int_equal(file->all.items[0].change.quantity, 4);
	read_bad(file, "vessel,kind,quantity\nQ,gas-cylinder,4.5\n",
	    "boats.csv: line 2, column quantity: ", "whole number");
}

PREPARED_TEST(what_nobody_knows_is_not_known_and_told)
{
	read_good(file,
	    "vessel,kind,expires,served,price\n"
	    "Q,gas-cylinder,n/a,?,-\n"
	    "Q,gas-cylinder, N/A ,Unknown,none\n",
	    2);
	for (size_t i = 0; i < 2; i++) {
		const struct csv_row *row = &file->all.items[i];
		assert_stamp(row->change.expires, "");
		assert_false(row->has_record);
		assert_int_equal(row->change.price_minor, -1);
	}
	const char *notes = text_string(&file->rows.notes);
	assert_non_null(strstr(
	    notes, "line 2: expires \"n/a\" read as not known, there and below\n"));
	assert_non_null(strstr(notes, "line 2: served \"?\" read as not known"));
}

PREPARED_TEST(empty_columns_and_rows_at_the_end_are_passed_over)
{
	read_good(file,
	    "vessel,kind,,\nQ,gas-cylinder\nQ,gas-cylinder,\n"
	    "Q,gas-cylinder,,,,,\n,,,\n ,\n",
	    3);
	read_bad(file, "vessel,kind,,\nQ\n", "boats.csv: line 2: ", "has 1 cell,");
}

PREPARED_TEST(a_title_above_the_column_names_is_passed_over)
{
	read_good(
	    file, "Safety gear of Q\n\nAutumn,2026\nvessel,kind\nQ,gas-cylinder\n", 1);
	assert_int_equal(file->all.items[0].line, 5);
	assert_string_equal(text_string(&file->rows.notes),
	    "line 4: the column names; what stands above is passed over\n");
}

PREPARED_TEST(without_a_known_column_name_the_first_row_is_told_about)
{
	read_bad(file, "ketch,sort\nQ,gas-cylinder\n", "boats.csv: 2 things",
	    "line 1, column number 1: \"ketch\"");
}

PREPARED_TEST(days_and_months_are_read_in_the_order_told)
{
	const char *bytes = "vessel,kind,made\nQ,gas-cylinder,05/04/2021\n";
	read_bad(file, bytes, "boats.csv: line 2, column made: \"05/04/2021\" is no date",
	    "either way round");
	file->options.order = ORDER_DAY_FIRST;
	read_good(file, bytes, 1);
	assert_stamp(file->all.items[0].change.made, "2021-04-05");
	file->options.order = ORDER_MONTH_FIRST;
	read_good(file, bytes, 1);
	assert_stamp(file->all.items[0].change.made, "2021-05-04");
}

PREPARED_TEST(a_byte_order_mark_and_any_line_ends_are_passed_over)
{
	read_good(file, "\xEF\xBB\xBFvessel,kind\r\n\r\nQ,gas-cylinder\r\n,\r\n", 1);
	assert_int_equal(file->all.items[0].line, 3);
	read_good(file, "vessel,kind\rQ,gas-cylinder\r\rQ,gas-cylinder", 2);
	assert_int_equal(file->all.items[1].line, 4);
}

PREPARED_TEST(lines_inside_quotes_count)
{
	read_bad(file,
	    "vessel,kind,notes\nQ,gas-cylinder,\"one\ntwo\r\nthree\"\nQ,teapot,\n",
	    "boats.csv: line 5, column kind: \"teapot\"", "catalogue");
}

/* Each file has one thing wrong, in the line and column told. */
PREPARED_TEST(what_is_wrong_is_told_with_line_and_column)
{
	static const struct {
		const char *bytes;
		const char *start;
		const char *part;
	} ROWS[] = {
	    {"", "boats.csv: line 1: ", "empty"},
	    {"\n\n", "boats.csv: line 1: ", "empty"},
	    {"made,fitted\n2021,2021\n", "boats.csv: line 1: ", "neither"},
	    {"kind\ngas-cylinder\n", "boats.csv: line 1: ", "vessel"},
	    {"vessel,kind,colour\nQ,gas-cylinder,red\n",
		"boats.csv: line 1, column number 3: ", "\"colour\""},
	    {"vessel,kind,type\nQ,gas-cylinder,\n",
		"boats.csv: line 1, column number 3: ", "column number 2"},
	    {"vessel,kind,made\nQ,gas-cylinder,31/02/2021\n",
		"boats.csv: line 2, column made: ", "31/02/2021"},
	    {"vessel,kind,Manufactured\nQ,gas-cylinder,soon\n",
		"boats.csv: line 2, column \"Manufactured\" (made): ", "soon"},
	    {"vessel,kind,quantity\nQ,gas-cylinder,0\n",
		"boats.csv: line 2, column quantity: ", "1 to"},
	    {"vessel,kind,quantity\nQ,gas-cylinder,2.5\n",
		"boats.csv: line 2, column quantity: ", "\"2.5\""},
	    {"vessel,kind,price\nQ,gas-cylinder,12.345\n",
		"boats.csv: line 2, column price: ", "thousands or decimals"},
	    {"vessel,kind,price\nQ,gas-cylinder,12.3456\n",
		"boats.csv: line 2, column price: ", "one or two digits"},
	    {"vessel,kind,task,served\nQ,gas-cylinder,polish,2021\n",
		"boats.csv: line 2, column task: ", "service, inspect"},
	    {"vessel,kind,state\nQ,gas-cylinder,lost\n",
		"boats.csv: line 2, column state: ", "lost"},
	    {"vessel,kind,next\nQ,gas-cylinder,2027\n",
		"boats.csv: line 2, column next: ", "served"},
	    {"vessel,kind\n,gas-cylinder\n",
		"boats.csv: line 2, column vessel: ", "blank"},
	    {"vessel,kind,made\nQ,,2021\n", "boats.csv: line 2, column kind: ", "blank"},
	    {"vessel,kind,made\nQ,gas-cylinder\n", "boats.csv: line 2: ", "2 cells"},
	    {"vessel,kind\nQ,gas-cylinder,x\n", "boats.csv: line 2: ", "3 cells"},
	    {"vessel,kind,\nQ,gas-cylinder,x\n",
		"boats.csv: line 2, column number 3: ", "no header"},
	    {"vessel,kind,tag\nQ,gas-cylinder,\"A\n1\"\n",
		"boats.csv: line 2, column tag: ", "line break"},
	    {"vessel,kind,notes\nQ,gas-cylinder,5\" hose\n",
		"boats.csv: line 2, column notes: ", "quotation mark"},
	    {"vessel,kind,notes\nQ,gas-cylinder,\"open\nQ,gas-cylinder,\n",
		"boats.csv: line 2, column notes: ", "never closed"},
	    {"vessel,kind,tag\nQ,gas-cylinder,A-1\nQ,gas-cylinder,A-1\n",
		"boats.csv: line 3, column tag: ", "line 2"},
	    {"tag,kind,served\nA-1,gas-cylinder,2021\nA-1,lifejacket-auto,2020\n",
		"boats.csv: line 3, column tag: ", "otherwise in kind"},
	    {"tag,kind,served\nA-1,gas-cylinder,2021\nA-1,gas-cylinder,2021\n",
		"boats.csv: line 3, column tag: ", "same record"},
	    {"\xFF\xFEv", "boats.csv: line 1: ", "UTF-16"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		read_bad(file, ROWS[i].bytes, ROWS[i].start, ROWS[i].part);
	}
}

PREPARED_TEST(a_zero_byte_is_refused)
{
	static const char BYTES[] = "vessel,kind,notes\nQ,gas-cylinder,a\0b\n";
	assert_false(read_bytes(file, BYTES, sizeof BYTES - 1));
	assert_string_equal(file->fault.text,
	    "boats.csv: line 2, column notes: there is a zero byte in it");
}

PREPARED_TEST(every_bad_row_is_told_in_the_order_of_the_file)
{
	read_bad(file,
	    "vessel,kind,made,quantity\nQ,teapot,2021,1\nQ,gas-cylinder,2021,1\n"
	    "Q,gas-cylinder,2021-13,none\n",
	    "boats.csv: 3 things are wrong, so nothing is taken from it:\nline 2, column "
	    "kind: ",
	    "\nline 4, column made: ");
	assert_non_null(strstr(file->fault.text, "\nline 4, column quantity: "));
}

static size_t
count_lines(const char *text)
{
	size_t count = 1;
	for (; *text != '\0'; text++) {
		count += *text == '\n';
	}
	return count;
}

/* A heading, twenty of the twenty-five, and how many more. */
PREPARED_TEST(no_more_than_twenty_are_told)
{
	SCOPED_TEXT bytes = {0};
	text_add(&bytes, "vessel,kind");
	for (int i = 0; i < 25; i++) {
		text_add_format(&bytes, ",h%d", i);
	}
	read_bad(file, text_string(&bytes), "boats.csv: 25 things", "\nand 5 more");
	assert_int_equal(count_lines(file->fault.text), 22);
}

PREPARED_TEST(what_is_wrong_in_one_way_is_told_once_and_counted)
{
	SCOPED_TEXT all = {0};
	file->options.complaints = &all;
	read_bad(file,
	    "vessel,kind,made\nQ,gas-cylinder,05/04/2021\nQ,gas-cylinder,31/02/2022\n"
	    "Q,gas-cylinder,06/04/2021\nQ,gas-cylinder,07/04/2021\n",
	    "boats.csv: 4 things", "\n    and 2 more like it: lines 4, 5\nline 3");
	assert_int_equal(count_lines(text_string(&all)), 5);
}

PREPARED_TEST(a_year_of_two_digits_is_read_where_the_option_says_so)
{
	const char *bytes =
	    "vessel,kind,made\nQ,gas-cylinder,Dec-27\nQ,gas-cylinder,7/69\n";
	read_bad(file, bytes, "boats.csv: 2 things",
	    "\"Dec-27\" has a year of two digits; --two-digit-years makes it \"Dec-2027\"");
	file->options.two_digit_years = true;
	file->fault = (struct fault){0};
	read_good(file, bytes, 2);
	assert_stamp(file->all.items[0].change.made, "2027-12");
	assert_stamp(file->all.items[1].change.made, "1969-07");
}

PREPARED_TEST(headers_are_known_in_four_languages)
{
	static const char *const HEADERS[] = {"boat,item,made,best before",
	    "Boot;Ger\u00e4t;Herstellung;G\u00dcLTIG BIS",
	    "Bateau;Mat\u00e9riel;Fabrication;P\u00e9remption",
	    "B\u00e5t;Utstyr;Produsert;Utl\u00f8per"};
	for (size_t i = 0; i < sizeof HEADERS / sizeof HEADERS[0]; i++) {
		SCOPED_TEXT bytes = {0};
		const char *row = i == 0 ? "Q,gas-cylinder,2021,2027-06"
					 : "Q;gas-cylinder;2021;2027-06";
		text_add_format(&bytes, "%s\n%s\n", HEADERS[i], row);
		read_good(file, text_string(&bytes), 1);
		assert_string_equal(file->all.items[0].change.vessel, "Q");
		assert_stamp(file->all.items[0].change.made, "2021");
		assert_stamp(file->all.items[0].change.expires,
		    i == 0 ? "before 2027-06" : "2027-06");
	}
}

PREPARED_TEST(one_date_of_a_list_tells_the_order_of_the_others)
{
	read_bad(file,
	    "vessel,kind,made\nQ,gas-cylinder,05/04/2021\nQ,gas-cylinder,28/11/2026\n",
	    "boats.csv: 2 things",
	    "line 1: \"28/11/2026\" can only be day first; if the whole list is, --dates "
	    "day-first reads it so");
}

PREPARED_TEST(papers_without_a_day_are_told_not_kept)
{
	read_good(file, "vessel,kind,station,served\nQ,gas-cylinder,Loft,\n", 1);
	assert_false(file->all.items[0].has_record);
	assert_non_null(
	    strstr(text_string(&file->rows.notes), "line 2: station not kept"));
}

PREPARED_TEST(a_further_row_brings_a_record_and_changes_nothing_else)
{
	read_good(file,
	    "vessel,tag,kind,place,served\nQ,A-1,gas-cylinder,aft,2024\n,A-1,,,2021\n",
	    2);
	const struct csv_row *row = &file->all.items[1];
	assert_true(row->further);
	assert_true(row->has_record);
	assert_int_equal(row->change.set, 1U << FIELD_VESSEL | 1U << FIELD_KIND);
	assert_string_equal(row->change.vessel, "Q");
}

/* A book with two boats: what the tests of tags and of changes compare with. */
static const char BOOK[] = "vessel,tag,kind,serial,place,expires,served\n"
			   "Quillfish,FL-1,flare-red-hand,,grab bag,2026-06,\n"
			   "Quillfish,FL-7,flare-red-hand,,grab bag,2026-06,\n"
			   "Quillfish,LJ-1,lifejacket-auto,S1,,,2025-02\n"
			   "Amberjay,LJ-2,lifejacket-auto,S1,,,\n";

static void
read_book(struct file *file, struct inventory *inventory)
{
	read_good(file, BOOK, 4);
	csv_batch_clear(&file->book);
	file->book = file->all;
	file->all = (struct csv_batch){0};
	csv_scene_inventory(&file->book, &file->arena, inventory);
}

/* Reads the rows back as they are now. */
static void
read_back(struct file *file)
{
	csv_batch_clear(&file->all);
	assert_true(csv_scene_all(&file->rows, &file->all, &file->fault));
}

static const char *
tag_at(const struct file *file, size_t row)
{
	return file->all.items[row].change.tag;
}

PREPARED_TEST(rows_without_tags_find_theirs_or_get_the_next)
{
	struct inventory inventory = {0};
	read_book(file, &inventory);
	read_good(file,
	    "vessel,kind,serial,place,expires,tag\n"
	    "Amberjay,lifejacket-auto,S1,saloon,,\n"
	    "Quillfish,flare-red-hand,,grab bag,2026-06,\n"
	    "Quillfish,flare-red-hand,,grab bag,2026-06,\n"
	    "Quillfish,flare-red-hand,,grab bag,2026-06,\n"
	    "Quillfish,flare-red-hand,,grab bag,2029-06,\n"
	    "Quillfish,gas-cylinder,,,,CY-4\n"
	    "Quillfish,gas-cylinder,,,,\n"
	    "Amberjay,lifejacket-auto,,,,\n",
	    8);
	assert_true(csv_find_tags(
	    "boats.csv", &file->rows, &inventory, &file->arena, &file->fault));
	read_back(file);
	static const char *const TAGS[] = {
	    "LJ-2", "FL-1", "FL-7", "FL-8", "FL-9", "CY-4", "CY-5", "LJ-3"};
	for (size_t i = 0; i < sizeof TAGS / sizeof TAGS[0]; i++) {
		assert_string_equal(tag_at(file, i), TAGS[i]);
	}
	const char **fresh = NULL;
	assert_true(tags_fresh("extinguisher-foam", &inventory, 2, &file->arena, &fresh));
	assert_string_equal(fresh[0], "EX-1");
	assert_string_equal(fresh[1], "EX-2");
}

static void
refuse_tags(
    struct file *file, const struct inventory *book, const char *bytes, const char *words)
{
	forget(file);
	assert_true(read_bytes(file, bytes, strlen(bytes)));
	assert_false(
	    csv_find_tags("boats.csv", &file->rows, book, &file->arena, &file->fault));
	if (strstr(file->fault.text, words) == NULL) {
		fail_msg("said: %s\nexpected: %s", file->fault.text, words);
	}
}

PREPARED_TEST(what_only_the_book_can_tell_is_refused_with_line_and_column)
{
	struct inventory book = {0};
	read_book(file, &book);
	refuse_tags(file, &book, "tag,kind\nLJ-1,\nX-1,gas-cylinder\n",
	    "boats.csv: line 3, column vessel: it is blank, and X-1");
	refuse_tags(file, &book, "tag,vessel,kind\nX-1,Q,\n",
	    "boats.csv: line 2, column kind: it is blank, and X-1 is not in the book; where "
	    "another column says what things are: --map \"HEADER=kind\"");
	refuse_tags(file, &book, "tag,part_of\nLJ-1,LJ-9\n",
	    "boats.csv: line 2, column part_of: \"LJ-9\" is no tag");
	refuse_tags(file, &book, "tag,part_of\nLJ-1,LJ-1\n",
	    "boats.csv: line 2, column part_of: LJ-1 would be a part of itself");
	refuse_tags(file, &book,
	    "vessel,kind,serial\nQ,gas-cylinder,S5\nQ,gas-cylinder,S5\n",
	    "boats.csv: line 3, column serial: S5 is in line 2");
	read_back(file);
	assert_null(tag_at(file, 0));
}

static void
compare(struct file *file, const struct inventory *book, struct csv_effect *effect,
    struct text *lines)
{
	struct spool spool = {0};
	assert_true(csv_compare(&file->rows, book, "EUR", effect, &spool, &file->fault));
	assert_true(spool_read_all(&spool, lines, &file->fault));
	spool_clear(&spool);
}

PREPARED_TEST(changes_are_told_column_by_column)
{
	struct inventory book = {0};
	read_book(file, &book);
	read_good(file,
	    "vessel,tag,kind,place,expires,served\n"
	    "Quillfish,FL-1,flare-red-hand,grab bag,2027-06,\n"
	    "Quillfish,FL-7,flare-red-hand,grab bag,2026-06,\n"
	    "Quillfish,LJ-1,lifejacket-auto,saloon,,2025-02\n"
	    "Quillfish,LJ-1,lifejacket-auto,,,2026-02\n"
	    "Quillfish,CY-1,gas-cylinder,,,2026-03\n",
	    5);
	SCOPED_TEXT lines = {0};
	struct csv_effect effect = {0};
	compare(file, &book, &effect, &lines);
	assert_string_equal(text_string(&lines),
	    "line 2: FL-1 changed: expires 2026-06 -> 2027-06\n"
	    "line 4: LJ-1 changed: place blank -> saloon\n"
	    "line 5: LJ-1 new record of service Feb 2026\n"
	    "line 6: CY-1 added: gas-cylinder aboard Quillfish; new record of service Mar "
	    "2026\n");
	assert_int_equal(effect.added, 1);
	assert_int_equal(effect.changed, 2);
	assert_int_equal(effect.same, 1);
	assert_int_equal(effect.records, 2);
}

PREPARED_TEST(an_item_that_is_added_is_told_with_its_description)
{
	struct inventory book = {0};
	read_book(file, &book);
	read_good(file,
	    "vessel,tag,kind,description\n"
	    "Quillfish,CY-1,gas-cylinder,33 g\n"
	    "Quillfish,CY-2,gas-cylinder,\"two\nlines\"\n",
	    2);
	SCOPED_TEXT lines = {0};
	struct csv_effect effect = {0};
	compare(file, &book, &effect, &lines);
	assert_string_equal(text_string(&lines),
	    "line 2: CY-1 added: gas-cylinder \"33 g\" aboard Quillfish\n"
	    "line 3: CY-2 added: gas-cylinder aboard Quillfish\n");
}

PREPARED_TEST(an_inventory_is_written_with_its_records_newest_first)
{
	struct inventory book = {0};
	read_good(file,
	    "vessel,tag,kind,notes,served,certificate,paid,price,made\n"
	    "Q,A-1,gas-cylinder,\"a, \"\"b\"\"\nc\",2024-05,C-2,1.5,20,2019~\n"
	    "Q,A-1,gas-cylinder,,2023-05,C-1,,,\n",
	    2);
	csv_scene_inventory(&file->all, &file->arena, &book);
	SCOPED_TEXT out = {0};
	csv_scene_write(&book, false, &out);
	assert_string_equal(text_string(&out),
	    "vessel,tag,kind,description,serial,quantity,place,made,packed,bought,fitted,"
	    "expires,served,task,next,station,certificate,part_of,price,notes,state,paid,"
	    "make,capacity,rating,landed_to,landed_on,hired_until,because,stands_for,to_buy,"
	    "refit\r\n"
	    "Q,A-1,gas-cylinder,,,1,,2019~,,,,,2024-05,service,,,C-2,,20.00,"
	    "\"a, \"\"b\"\"\nc\",aboard,1.50,,,,,,,,,,\r\n"
	    "Q,A-1,gas-cylinder,,,,,,,,,,2023-05,service,,,C-1,,,,,,,,,,,,,,,\r\n");
}

PREPARED_TEST(a_file_for_a_spreadsheet_is_read_back_to_what_it_was)
{
	struct inventory book = {0};
	read_good(file,
	    "vessel,tag,kind,notes\n"
	    "Q,A-1,gas-cylinder,=1+1\n"
	    "Q,A-2,gas-cylinder,'=1+1\n",
	    2);
	assert_string_equal(text_string(&file->rows.notes),
	    "line 2: notes begins as a formula does (= + - @), and a spreadsheet would run "
	    "it; it is taken as it is, there and below, and \"becket export "
	    "--for-spreadsheet\" disarms it\n");
	csv_scene_inventory(&file->all, &file->arena, &book);
	SCOPED_TEXT out = {0};
	csv_scene_write(&book, true, &out);
	assert_null(strstr(text_string(&out), ",="));
	assert_non_null(strstr(text_string(&out), ",'=1+1,"));
	assert_non_null(strstr(text_string(&out), ",''=1+1,"));
	forget(file);
	read_good(file, text_string(&out), 2);
	assert_string_equal(file->all.items[0].change.notes, "=1+1");
	assert_string_equal(file->all.items[1].change.notes, "'=1+1");
}

/* A next date is a clock of a record: without the day of the work it counts for nothing, and a row
 * that has that day keeps its own. */
PREPARED_TEST(a_next_date_without_a_day_of_the_work_is_asked_about_or_kept_as_words)
{
	struct csv_doubts doubts = {.arena = &file->arena};
	static const char LIST[] =
	    "vessel,kind,made,served,next,notes\n"
	    "Quillfish,liferaft-canister,2022,,06/2027,grey\n"
	    "Quillfish,lifejacket-auto,2022,2026-05-20,2027-05-20,\n";
	file->options.doubts = &doubts;
	read_bad(file, LIST, "boats.csv: line 2, column next: a next date belongs",
	    "--next-alone notes");
	assert_int_equal(doubts.count, 1);
	assert_string_equal(doubts.rest, "");
	assert_int_equal(doubts.items[0].about, DOUBT_NEXT_ALONE);
	assert_string_equal(doubts.items[0].theirs, "Jun 2027");
	file->options.next_alone = NEXT_ALONE_NOTES;
	read_good(file, LIST, 2);
	assert_false(file->all.items[0].has_record);
	assert_string_equal(file->all.items[0].change.notes, "grey; next: Jun 2027");
	assert_stamp(file->all.items[1].record.next, "2027-05-20");
}

/* Each thing once for the whole list, with how many rows it is about; what no answer cures
 * apart. */
PREPARED_TEST(what_a_person_can_clear_up_is_told_once_for_the_list)
{
	struct csv_doubts doubts = {.arena = &file->arena};
	file->options.doubts = &doubts;
	read_bad(file,
	    "vessel,kind,made,price,Doings\n"
	    "Quillfish,Pyro,04/05/2021,1.250,red\n"
	    "Quillfish,PYRO,28/11/2021,4,green\n"
	    "Quillfish,liferaft-canister,31/02/2022,4,\n",
	    "boats.csv: ", "is no column this program knows");

	static const enum csv_doubt_about ABOUT[] = {
	    DOUBT_HEADER, DOUBT_ORDER, DOUBT_DECIMALS, DOUBT_KIND};

	assert_int_equal(doubts.count, 4);
	for (size_t i = 0; i < 4; i++) {
		assert_int_equal(doubts.items[i].about, ABOUT[i]);
	}
	assert_int_equal(doubts.items[0].example_count, 2);
	assert_string_equal(doubts.items[0].examples[1], "green");
	assert_string_equal(
	    doubts.items[1].hint, "\"28/11/2021\" in this list can only be day first");
	assert_int_equal(doubts.items[3].rows, 2);
	assert_int_equal(doubts.cells.count, 1); /* there is no 31 February */
	assert_string_equal(doubts.rest, "");
}

/* One tag for all rows, as a column of how many has it where it is taken for the tag: each way in
 * which that is wrong is told once, beside what is asked about and what is mended in its cell. */
PREPARED_TEST(what_no_answer_cures_is_told_once_for_each_way)
{
	struct csv_doubts doubts = {.arena = &file->arena};
	file->options.doubts = &doubts;
	read_bad(file,
	    "vessel,tag,kind,made,serial\n"
	    "Quillfish,1,lifejacket-auto,2021,A\n"
	    "Quillfish,1,lifejacket-auto,04/05/2021,B\n"
	    "Quillfish,1,lifejacket-auto,31/02/2021,C\n"
	    "Quillfish,1,lifejacket-auto,2021,D\n",
	    "boats.csv: ", "1 is in line 2 already");
	assert_int_equal(doubts.count, 1);
	assert_int_equal(doubts.items[0].about, DOUBT_ORDER);
	assert_int_equal(doubts.cells.count, 1);
	assert_ptr_not_equal(
	    strstr(doubts.rest, "line 3, column tag: 1 is in line 2"), NULL);
	assert_ptr_equal(strstr(doubts.rest, "line 4, column tag"), NULL);
	assert_ptr_not_equal(strstr(doubts.rest, "and 2 more like it: lines 4, 5"), NULL);
	assert_ptr_equal(strstr(doubts.rest, "04/05/2021"), NULL);
	assert_ptr_equal(strstr(doubts.rest, "31/02/2021"), NULL);
}

/* February 2021 has 28 days. */
PREPARED_TEST(a_bad_cell_is_told_in_its_row_and_mended_alone)
{
	static const char LIST[] = "tag,kind,vessel,made\n"
				   "LJ-1,lifejacket-auto,Quillfish,2021-02-31\n"
				   "LJ-2,lifejacket-auto,Quillfish,2021-02-01\n";
	static const struct csv_mended MENDED[] = {{2, 3, "2021-02-28"}};
	struct csv_doubts doubts = {.arena = &file->arena};
	file->options.doubts = &doubts;
	assert_false(read_bytes(file, LIST, strlen(LIST)));
	assert_int_equal(doubts.cells.count, 1);
	assert_string_equal(doubts.rest, "");
	const struct csv_bad_cell *cell = &doubts.cells.items[0];
	assert_int_equal(cell->line, 2);
	assert_int_equal(cell->cell, 3);
	assert_int_equal(cell->count, 4);
	assert_string_equal(cell->heads[3], "made");
	assert_string_equal(cell->texts[0], "LJ-1");
	assert_string_equal(cell->texts[3], "2021-02-31");
	file->options.doubts = NULL;
	file->options.mended = MENDED;
	file->options.mended_count = 1;
	file->fault = (struct fault){0};
	read_good(file, LIST, 2);
	assert_stamp(file->all.items[0].change.made, "2021-02-28");
	assert_stamp(file->all.items[1].change.made, "2021-02-01");
}

PREPARED_TEST(how_each_column_is_read_is_told_with_what_stands_in_it_first)
{
	static const char LIST[] = "Tag,Item,Vessel,Where,Colour\n"
				   "LJ-1,lifejacket-auto,Quillfish,,red\n"
				   "LJ-2,lifejacket-auto,Quillfish,saloon,red\n";
	static const struct csv_mapping MAPPINGS[] = {{"Colour", "ignore", false}};
	struct csv_doubts doubts = {.arena = &file->arena};
	file->options.doubts = &doubts;
	file->options.mappings = MAPPINGS;
	file->options.mapping_count = 1;
	read_good(file, LIST, 2);
	assert_int_equal(doubts.columns.count, 5);
	assert_string_equal(doubts.columns.items[1].head, "Item");
	assert_string_equal(doubts.columns.items[1].ours, "kind");
	assert_string_equal(doubts.columns.items[3].ours, "place");
	assert_string_equal(doubts.columns.items[3].first, "saloon");
	assert_string_equal(doubts.columns.items[4].ours, "ignore");
}

RUN_TESTS(NULL, NULL)
