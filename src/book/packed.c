/* What is packed in its bag. */
#include "book/call.h"
#include "book/putting.h"

static void
take_tag(struct call *call, struct arena *arena, void *out)
{
	const char **tag = out;
	*tag = take_text(call, arena);
}

bool
book_load_packed(struct book *book, day_t since, struct arena *arena,
    const char *const **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, LOAD_PACKED, &call, fault)) {
		return false;
	}
	give_day(&call, since);
	return call_rows(
	    &call, arena, take_tag, sizeof(const char *), out, count_out, fault);
}

bool
book_put_packed(struct book *book, const char *tag, day_t on, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	if (!writing_begin(book, &writing, fault) ||
	    !call_open(book, on == DAY_NONE ? PACKED_DROP : PACKED_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, tag);
	if (on != DAY_NONE) {
		give_day(&call, on);
	}
	return call_run(&call, fault) && writing_keep(&writing, fault);
}
