/* How large a file may be. The limits are those of desk/files.h. */
#include "desk/files.h"

#include "becket_test.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Reads a file of so many zero bytes, which takes no room on the disk. */
static bool
read_zeros(off_t size,
    bool (*read)(const char *path, struct text *out, struct fault *fault),
    struct text *out, struct fault *fault)
{
	char path[] = "/tmp/becket-files-XXXXXX";
	int descriptor = mkstemp(path);
	assert_true(descriptor >= 0);
	assert_int_equal(ftruncate(descriptor, size), 0);
	assert_int_equal(close(descriptor), 0);
	bool done = read(path, out, fault);
	assert_int_equal(unlink(path), 0);
	return done;
}

TEST(a_list_may_be_larger_than_any_other_file)
{
	const off_t size = (off_t)65 * 1024 * 1024;
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_true(read_zeros(size, file_read_list, &out, &fault));
	assert_int_equal(out.length, size);
	text_reset(&out);
	assert_false(read_zeros(size, file_read, &out, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_non_null(strstr(fault.text, "larger than 64 MiB"));
}

RUN_TESTS(NULL, NULL)
