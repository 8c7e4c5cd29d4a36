/* How large a file may be. The limits are those of desk/files.h. */
#include "desk/files.h"

#include "becket_test.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Reads a file of so many zero bytes, which takes no room on the disk, into a spool as a
 * list, or into a text as any other. */
static bool
read_zeros(off_t size, struct spool *list, struct text *other, struct fault *fault)
{
	char path[] = "/tmp/becket-files-XXXXXX";
	int descriptor = mkstemp(path);
	assert_true(descriptor >= 0);
	assert_int_equal(ftruncate(descriptor, size), 0);
	assert_int_equal(close(descriptor), 0);
	bool done = list != NULL ? file_read_list(path, list, fault)
				 : file_read(path, other, fault);
	assert_int_equal(unlink(path), 0);
	return done;
}

TEST(a_list_may_be_larger_than_any_other_file)
{
	const off_t size = (off_t)65 * 1024 * 1024;
	SCOPED_SPOOL list = {0};
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_true(read_zeros(size, &list, NULL, &fault));
	assert_int_equal(list.length, size);
	assert_false(read_zeros(size, NULL, &out, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_non_null(strstr(fault.text, "larger than 64 MiB"));
}

RUN_TESTS(NULL, NULL)
