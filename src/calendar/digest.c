#include "calendar/reminders_inside.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>

enum { DIGEST_BYTES = 16 };

void
digest_make(
    const char *const *strings, size_t count, unsigned char *digest_out, size_t size)
{
	crypto_generichash_state state;
	int failed = sodium_init() < 0 ? 1 : 0;
	failed |= crypto_generichash_init(&state, NULL, 0, size);
	for (size_t i = 0; i < count; i++) {
		failed |= crypto_generichash_update(
		    &state, (const unsigned char *)strings[i], strlen(strings[i]) + 1);
	}
	failed |= crypto_generichash_final(&state, digest_out, size);
	assert(failed == 0 && "the sizes are ones the library takes");
}

void
digest_add(const char *const *strings, size_t count, struct text *out)
{
	unsigned char bytes[DIGEST_BYTES];
	char digits[2 * DIGEST_BYTES + 1];
	digest_make(strings, count, bytes, sizeof bytes);
	text_add(out, sodium_bin2hex(digits, sizeof digits, bytes, sizeof bytes));
}
