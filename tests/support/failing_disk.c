#include "failing_disk.h"

#include <sqlite3.h>
#include <stddef.h>

/* One open file; the real one's own memory follows it. */
struct shim {
	sqlite3_file base;
	sqlite3_file *real;
};

static struct {
	enum disk_call call;
	int left; /* calls until one fails; 0: nothing is to fail */
	bool broken;
	bool failed;
} fuse;

static const int ERRORS[DISK_CALLS] = {
    [DISK_OPEN] = SQLITE_CANTOPEN,
    [DISK_READ] = SQLITE_IOERR_READ,
    [DISK_WRITE] = SQLITE_FULL,
    [DISK_SYNC] = SQLITE_IOERR_FSYNC,
    [DISK_TRUNCATE] = SQLITE_IOERR_TRUNCATE,
    [DISK_LOCK] = SQLITE_IOERR_LOCK,
    [DISK_INDEX] = SQLITE_IOERR_SHMMAP,
    [DISK_DELETE] = SQLITE_IOERR_DELETE,
};

/* SQLITE_OK, or how this call fails. */
static int
try_call(enum disk_call call)
{
	if (fuse.left == 0 || call != fuse.call) {
		return SQLITE_OK;
	}
	if (fuse.left > 1) {
		fuse.left--;
		return SQLITE_OK;
	}
	fuse.failed = true;
	fuse.left = fuse.broken ? 1 : 0;
	return ERRORS[call];
}

static sqlite3_file *
real_of(sqlite3_file *file)
{
	return ((struct shim *)file)->real;
}

static int
shim_close(sqlite3_file *file)
{
	return real_of(file)->pMethods->xClose(real_of(file));
}

static int
shim_read(sqlite3_file *file, void *into, int amount, sqlite3_int64 at)
{
	int result = try_call(DISK_READ);
	return result != SQLITE_OK
		   ? result
		   : real_of(file)->pMethods->xRead(real_of(file), into, amount, at);
}

static int
shim_write(sqlite3_file *file, const void *bytes, int amount, sqlite3_int64 at)
{
	int result = try_call(DISK_WRITE);
	return result != SQLITE_OK
		   ? result
		   : real_of(file)->pMethods->xWrite(real_of(file), bytes, amount, at);
}

static int
shim_truncate(sqlite3_file *file, sqlite3_int64 size)
{
	int result = try_call(DISK_TRUNCATE);
	return result != SQLITE_OK
		   ? result
		   : real_of(file)->pMethods->xTruncate(real_of(file), size);
}

static int
shim_sync(sqlite3_file *file, int flags)
{
	int result = try_call(DISK_SYNC);
	return result != SQLITE_OK ? result
				   : real_of(file)->pMethods->xSync(real_of(file), flags);
}

static int
shim_file_size(sqlite3_file *file, sqlite3_int64 *size)
{
	return real_of(file)->pMethods->xFileSize(real_of(file), size);
}

static int
shim_lock(sqlite3_file *file, int level)
{
	int result = try_call(DISK_LOCK);
	return result != SQLITE_OK ? result
				   : real_of(file)->pMethods->xLock(real_of(file), level);
}

static int
shim_unlock(sqlite3_file *file, int level)
{
	return real_of(file)->pMethods->xUnlock(real_of(file), level);
}

static int
shim_check_reserved(sqlite3_file *file, int *out)
{
	return real_of(file)->pMethods->xCheckReservedLock(real_of(file), out);
}

static int
shim_control(sqlite3_file *file, int operation, void *argument)
{
	return real_of(file)->pMethods->xFileControl(real_of(file), operation, argument);
}

static int
shim_sector_size(sqlite3_file *file)
{
	return real_of(file)->pMethods->xSectorSize(real_of(file));
}

static int
shim_characteristics(sqlite3_file *file)
{
	return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}

static int
shim_index_map(sqlite3_file *file, int page, int size, int extend, void volatile **out)
{
	int result = try_call(DISK_INDEX);
	return result != SQLITE_OK ? result
				   : real_of(file)->pMethods->xShmMap(
					 real_of(file), page, size, extend, out);
}

static int
shim_index_lock(sqlite3_file *file, int offset, int count, int flags)
{
	bool takes = (flags & SQLITE_SHM_LOCK) != 0;
	int result = takes ? try_call(DISK_LOCK) : SQLITE_OK;
	return result != SQLITE_OK ? result
				   : real_of(file)->pMethods->xShmLock(
					 real_of(file), offset, count, flags);
}

static void
shim_index_barrier(sqlite3_file *file)
{
	real_of(file)->pMethods->xShmBarrier(real_of(file));
}

static int
shim_index_unmap(sqlite3_file *file, int remove)
{
	return real_of(file)->pMethods->xShmUnmap(real_of(file), remove);
}

static const sqlite3_io_methods METHODS = {
    .iVersion = 2,
    .xClose = shim_close,
    .xRead = shim_read,
    .xWrite = shim_write,
    .xTruncate = shim_truncate,
    .xSync = shim_sync,
    .xFileSize = shim_file_size,
    .xLock = shim_lock,
    .xUnlock = shim_unlock,
    .xCheckReservedLock = shim_check_reserved,
    .xFileControl = shim_control,
    .xSectorSize = shim_sector_size,
    .xDeviceCharacteristics = shim_characteristics,
    .xShmMap = shim_index_map,
    .xShmLock = shim_index_lock,
    .xShmBarrier = shim_index_barrier,
    .xShmUnmap = shim_index_unmap,
};

static sqlite3_vfs *usual; /* NULL until disk_begin */

static int
shim_open(sqlite3_vfs *vfs, sqlite3_filename name, sqlite3_file *file, int flags,
    int *flags_out)
{
	struct shim *shim = (struct shim *)file;
	(void)vfs;
	*shim = (struct shim){.real = (sqlite3_file *)(shim + 1)};
	int result = try_call(DISK_OPEN);
	if (result == SQLITE_OK) {
		result = usual->xOpen(usual, name, shim->real, flags, flags_out);
	}
	if (result == SQLITE_OK) {
		shim->base.pMethods = &METHODS;
	}
	return result;
}

static int
shim_delete(sqlite3_vfs *vfs, const char *name, int sync)
{
	int result = try_call(DISK_DELETE);
	(void)vfs;
	return result != SQLITE_OK ? result : usual->xDelete(usual, name, sync);
}

void
disk_begin(void)
{
	static sqlite3_vfs failing;
	if (usual != NULL) {
		return;
	}
	usual = sqlite3_vfs_find(NULL);
	failing = *usual;
	failing.zName = "failing";
	failing.szOsFile = (int)sizeof(struct shim) + usual->szOsFile;
	failing.xOpen = shim_open;
	failing.xDelete = shim_delete;
	(void)sqlite3_vfs_register(&failing, 1);
}

void
disk_fail(enum disk_call call, int n, bool broken)
{
	fuse.call = call;
	fuse.left = n;
	fuse.broken = broken;
	fuse.failed = false;
}

bool
disk_mend(void)
{
	fuse.left = 0;
	return fuse.failed;
}

const char *
disk_word(enum disk_call call)
{
	static const char *const WORDS[DISK_CALLS] = {
	    "open", "read", "write", "sync", "truncate", "lock", "index", "delete"};
	return WORDS[call];
}
