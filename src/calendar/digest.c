#include "calendar/digest.h"

#include <sodium.h>
#include <string.h>

enum { DIGEST_BYTES = 16 };

bool
digest_make(const char *const *strings, size_t count, unsigned char *digest_out,
    size_t size, struct fault *fault)
{
	crypto_generichash_state state;
	int failed = sodium_init() < 0 ? 1 : 0;
	failed |= crypto_generichash_init(&state, NULL, 0, size);
	for (size_t i = 0; i < count; i++) {
		failed |= crypto_generichash_update(
		    &state, (const unsigned char *)strings[i], strlen(strings[i]) + 1);
	}
	failed |= crypto_generichash_final(&state, digest_out, size);
	return failed == 0 ? true
			   : fault_set(fault, FAULT_MEMORY, "a digest can't be made");
}

bool
digest_add(
    const char *const *strings, size_t count, struct text *out, struct fault *fault)
{
	unsigned char bytes[DIGEST_BYTES];
	char digits[2 * DIGEST_BYTES + 1];
	if (!digest_make(strings, count, bytes, sizeof bytes, fault)) {
		return false;
	}
	text_add(out, sodium_bin2hex(digits, sizeof digits, bytes, sizeof bytes));
	return text_check(out, fault);
}
