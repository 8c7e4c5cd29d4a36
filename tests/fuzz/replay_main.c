/* Runs a fuzz target once over every file named or found in a folder named, so that what
 * was once found stays found. Fails when there is nothing to replay. */
#include <dirent.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The most one seed, or one text of a benchmark, may hold. */
enum { SEED_MOST = 1 << 25 };

static size_t
replay_file(const char *path)
{
	FILE *file = fopen(path, "rb");
	uint8_t *bytes = malloc(SEED_MOST);
	if (file == NULL || bytes == NULL) {
		(void)fprintf(stderr, "replay: %s can't be read\n", path);
		exit(2);
	}
	size_t size = fread(bytes, 1, SEED_MOST, file);
	(void)fclose(file);
	/* An exact copy, so that a sanitizer sees a read past the end. */
	uint8_t *exact = malloc(size > 0 ? size : 1);
	if (exact == NULL) {
		(void)fprintf(stderr, "replay: out of memory\n");
		exit(2);
	}
	for (size_t i = 0; i < size; i++) {
		exact[i] = bytes[i];
	}
	free(bytes);
	(void)LLVMFuzzerTestOneInput(exact, size);
	free(exact);
	return 1;
}

static size_t
replay_folder(const char *path)
{
	DIR *folder = opendir(path);
	if (folder == NULL) {
		(void)fprintf(stderr, "replay: %s can't be read\n", path);
		exit(2);
	}
	size_t count = 0;
	for (struct dirent *entry = readdir(folder); entry != NULL;
	     entry = readdir(folder)) {
		char name[4096];
		if (entry->d_name[0] == '.') {
			continue;
		}
		(void)snprintf(name, sizeof name, "%s/%s", path, entry->d_name);
		count += replay_file(name);
	}
	(void)closedir(folder);
	return count;
}

int
main(int count, char **arguments)
{
	size_t replayed = 0;
	for (int i = 1; i < count; i++) {
		struct stat status;
		bool folder = stat(arguments[i], &status) == 0 && S_ISDIR(status.st_mode);
		replayed +=
		    folder ? replay_folder(arguments[i]) : replay_file(arguments[i]);
	}
	(void)printf("%zu seeds replayed\n", replayed);
	return replayed > 0 ? 0 : 1;
}
