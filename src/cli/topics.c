#include "cli/help.h"

#include <string.h>

const struct topic TOPICS[] = {
    {"dates", "how days and the dates of labels are written and read",
	"A day is 2026-11-28, 28 Nov 2026, today, yesterday or tomorrow. 28/11/2026 can only be "
	"one day and is taken; 04/05/2026 can be two and is refused, never guessed: \"becket import\" "
	"asks for --dates day-first or month-first.\n"
	"Months are known by their names, and short forms, in English, German, French, Spanish, Italian, "
	"Dutch, Portuguese, Catalan, Danish, Norwegian and Swedish, with or without accents; \"de\" "
	"or \"del\" may stand between, as in 28 de noviembre de 2026.\n"
	"A label's date may be as coarse as the label: 2021-04, 04/2021, 2021. Where a time is "
	"counted from it, it counts from its first day. As a mark (EXP 06/2027) it is good "
	"through its last day, 30 June 2027; \"before 2027-06\" and \"use by 2027-06\" "
	"end on 31 May 2027. A ~ behind it, 2020~, says that it is an estimate.\n"
	"Gear is in date through its due day and overdue from the day after. \"becket why TAG\" "
	"says which clock, which rule and which record a date comes from. --today DATE answers "
	"as of another day."},
    {"prices", "how prices are written",
	"A price is in the main unit of the book's currency: 45, 45.00 and 45,00 are the same, "
	"with the currency's code or sign or without; so is 45.-. 1.250 and 1,250 could be either of two "
	"prices and are refused; 1250, 1.250,00 and 1,250.00 are not. What was understood is said "
	"again by the command.\n"
	"Answers in JSON have money in minor units (cents). \"becket book currency CUR\" says "
	"which currency it is. A price that is not known counts as the highest known for the same "
	"work."},
    {"sheets", "rule sheets: whose rules a boat follows, and your own",
	"A rule sheet holds the rules and the carriage lines of one regime. \"becket sheet list\" "
	"names those there are, \"becket sheet show NAME\" says what is in one and how its "
	"sources were seen, \"becket vessel NAME --sheet SHEET\" makes a boat follow it.\n"
	"A sheet of your own is a YAML file in the folder \"sheets\" beside the book; "
	"\"becket sheet check FILE\" says what is wrong with it. One that has the name of a "
	"built-in sheet takes its place, and says so. Your sheets go with \"becket book backup\".\n"
	"Becket advises: the label, the maker's manual, the certificate, your authority and your "
	"surveyor decide."},
    {"reminders", "events in the calendar that you have",
	"\"becket calendar FILE\" writes reminders that any calendar program reads. Written again "
	"after a change, each is put in the place of the one before and none is there twice.\n"
	"\"becket serve\" gives them out as a feed that a calendar subscribes to, "
	"\"becket calendar push\" keeps them on a CalDAV server. \"becket calendar read\" takes "
	"back what was moved or done there. A hand-in keeps its day once it was given out, as long "
	"as it lies ahead and serves."},
    {"books", "where the book is, copies of it, and taking changes back",
	"The book is one file: the one that --book names, else BECKET_BOOK, else becket/book.db "
	"in $XDG_DATA_HOME (~/.local/share where that is not set). A new one can be read by its "
	"owner alone.\n"
	"\"becket book backup FILE\" copies it, with your own rule sheets, while it is in use, and "
	"\"becket book restore FILE\" puts it back and keeps what was there. \"becket book "
	"journal\" says what was changed and when, \"becket book undo\" takes the last change "
	"back, \"becket book check\" says whether all is sound."},
};

const size_t TOPIC_COUNT = sizeof TOPICS / sizeof TOPICS[0];

const struct topic *
topic_find(const char *name)
{
	for (size_t i = 0; i < TOPIC_COUNT; i++) {
		if (strcmp(TOPICS[i].name, name) == 0) {
			return &TOPICS[i];
		}
	}
	return NULL;
}
