#include "report/money.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* How many decimals a currency has: ISO 4217 minor units, from memory. */
static int
decimals_of(const char *currency)
{
	static const char *const NONE[] = {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY",
	    "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"};
	static const char *const THREE[] = {
	    "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};
	for (size_t i = 0; i < sizeof NONE / sizeof NONE[0]; i++) {
		if (strcmp(currency, NONE[i]) == 0) {
			return 0;
		}
	}
	for (size_t i = 0; i < sizeof THREE / sizeof THREE[0]; i++) {
		if (strcmp(currency, THREE[i]) == 0) {
			return 3;
		}
	}
	return 2;
}

const char *
money_words(int64_t minor, const char *currency, char buffer[MONEY_WORDS_SIZE])
{
	buffer[0] = '\0';
	if (minor < 0) {
		return buffer;
	}
	int decimals = decimals_of(currency);
	if (decimals == 0) {
		(void)snprintf(
		    buffer, MONEY_WORDS_SIZE, "%.8s %" PRId64, currency, minor);
		return buffer;
	}
	int64_t unit = decimals == 3 ? 1000 : 100;
	(void)snprintf(buffer, MONEY_WORDS_SIZE, "%.8s %" PRId64 ".%0*" PRId64, currency,
	    minor / unit, decimals, minor % unit);
	return buffer;
}
