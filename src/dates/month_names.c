/* The names of months, as becket writes them and as lists have them. */
#include "base/text.h"
#include "dates/day.h"

#include <string.h>

enum { LETTERS_MOST = 12 };

/* Lists come in the languages of the boats' waters: beside English the names and their short
 * forms in German, French, Spanish, Italian, Dutch, Portuguese, Catalan, Danish, Norwegian and
 * Swedish, without accents. None is another month's in any of these. Left out are "set" and
 * "out", which are words of English as well. A blank stands around each. */
static const char *const NAMES[] = {
    " january jan januar januari janner jaenner janvier janv enero ene gennaio gen janeiro gener ",
    (" february feb februar februari feber fevrier fevr febrero febbraio fevereiro fev febrer "
     "febr "),
    " march mar mars marz maerz mrz marzo maart mrt marco marts marc ",
    " april apr avril avr abril abr aprile ",
    " may mai mayo maggio mag mei maio maig maj ",
    " june jun juin juni junio giugno giu junho juny ",
    " july jul juillet juil juli julio luglio lug julho juliol ",
    " august aug aout agosto ago augustus agost augusti ",
    " september sep sept septembre septiembre settembre setembro setembre ",
    " october oct octobre oktober okt octubre ottobre ott outubro ",
    " november nov novembre noviembre novembro ",
    " december dec decembre dezember dez diciembre dic dicembre dezembro desembre desember des ",
};

const char *
month_name(int month)
{
	static const char *const ENGLISH[] = {"January", "February", "March", "April",
	    "May", "June", "July", "August", "September", "October", "November",
	    "December"};
	return month >= 1 && month <= 12 ? ENGLISH[month - 1] : "?";
}

const char *
month_short_name(int month)
{
	static const char *const ENGLISH[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
	    "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
	return month >= 1 && month <= 12 ? ENGLISH[month - 1] : "?";
}

/* The letter without case and accent that stands in front, of those that the names have in UTF-8;
 * 0 for any other byte. `*length_out` is how many bytes it has. */
static char
letter_at(const char *string, size_t *length_out)
{
	static const struct {
		const char *bytes; /* in UTF-8 */
		char letter;
	} ACCENTED[] = {{"ä", 'a'}, {"Ä", 'a'}, {"é", 'e'}, {"É", 'e'}, {"û", 'u'},
	    {"Û", 'u'}, {"ç", 'c'}, {"Ç", 'c'}};

	char letter = (char)text_lower(*string);
	*length_out = 1;
	if (letter >= 'a' && letter <= 'z') {
		return letter;
	}
	*length_out = 2;
	for (size_t i = 0; i < sizeof ACCENTED / sizeof ACCENTED[0]; i++) {
		if (strncmp(string, ACCENTED[i].bytes, 2) == 0) {
			return ACCENTED[i].letter;
		}
	}
	return 0;
}

int
month_at(const char *string, size_t *length_out)
{
	char word[LETTERS_MOST + 3] = " ";
	size_t count = 1;
	size_t length = 0;
	size_t bytes = 0;
	for (char letter; (letter = letter_at(&string[length], &bytes)) != 0;
	     length += bytes) {
		if (count > LETTERS_MOST) {
			return 0;
		}
		word[count++] = letter;
	}
	word[count] = ' ';
	for (int month = 1; count > 1 && month <= 12; month++) {
		if (strstr(NAMES[month - 1], word) != NULL) {
			*length_out = length;
			return month;
		}
	}
	return 0;
}
