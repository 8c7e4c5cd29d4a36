/* What writing vessels and stations share. */
#include "book/call.h"

bool
put_words(struct book *book, enum statement add, int64_t owner, const char *const *words,
    size_t count, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, add, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		give_int(&call, owner);
		give_int(&call, (int64_t)i);
		give_text(&call, words[i]);
		if (!name_check("a name in a list", words[i], fault) ||
		    !call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

bool
drop_of(struct book *book, enum statement drop, int64_t owner, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, drop, &call, fault)) {
		return false;
	}
	give_int(&call, owner);
	return call_run(&call, fault);
}
