#include "life/serials.h"

void
serial_words(const struct serial_finding *finding, const char *serial, const char *other,
    struct text *out)
{
	char on[DAY_WORDS_SIZE];
	switch (finding->doubt) {
	case SERIAL_FINE:
		break;
	case SERIAL_SAME:
		text_add_format(out,
		    "serial \"%s\" is that of %s already; if they are two, say " FIELD
		    "serials-are-right",
		    serial, other);
		break;
	case SERIAL_NEAR:
		text_add_format(out,
		    "serial \"%s\" is one character from \"%s\" of %s; read both again, "
		    "and if both are right, say " FIELD "serials-are-right",
		    serial, finding->serial, other);
		break;
	case SERIAL_CONDEMNED:
		text_add_format(out,
		    "the one with serial \"%s\" was condemned, as %s%s%s; it does not go "
		    "back aboard unless " FIELD "again says so",
		    serial, other, finding->on == DAY_NONE ? "" : ", on ",
		    day_words(finding->on, on));
		break;
	}
}
