/* Lets the N-th write or flush of a database and its log fail once, as a bad
 * disk does; or with KERFSIDE_EIO_KILL set, lets the program be killed there, and
 * counts those of each file whose name begins with the database's. Loaded before the C library; KERFSIDE_EIO_AT is N, and
 * KERFSIDE_EIO_FILE the database. When it has happened, a file of that name with
 * ".eio" says at which call. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

static long calls;

static int fails(int fd, const char *call)
{
	const char *file = getenv("KERFSIDE_EIO_FILE"), *at = getenv("KERFSIDE_EIO_AT");
	char link[64], name[4096], note[4200];
	if (!file || !at)
		return 0;
	snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
	ssize_t n = readlink(link, name, sizeof name - 1);
	if (n < 0)
		return 0;
	name[n] = 0;
	size_t length = strlen(file);
	int all = getenv("KERFSIDE_EIO_KILL") != NULL;
	if (strncmp(name, file, length) || (!all && name[length] && strcmp(name + length, "-wal")))
		return 0;
	if (__atomic_add_fetch(&calls, 1, __ATOMIC_SEQ_CST) != atol(at))
		return 0;
	snprintf(note, sizeof note, "%s.eio", file);
	int out = open(note, O_CREAT | O_WRONLY, 0600);
	dprintf(out, "%s%s", call, name + length);
	close(out);
	if (all)
		raise(SIGKILL);
	errno = EIO;
	return 1;
}

#define REAL(type, call) \
	static type real; \
	if (!real) \
		real = (type)dlsym(RTLD_NEXT, call);

typedef ssize_t (*writer)(int, const void *, size_t, off64_t);
typedef int (*flusher)(int);

ssize_t pwrite(int fd, const void *from, size_t n, off_t at)
{
	REAL(writer, "pwrite")
	return fails(fd, "pwrite") ? -1 : real(fd, from, n, at);
}

ssize_t pwrite64(int fd, const void *from, size_t n, off64_t at)
{
	REAL(writer, "pwrite64")
	return fails(fd, "pwrite") ? -1 : real(fd, from, n, at);
}

int fsync(int fd)
{
	REAL(flusher, "fsync")
	return fails(fd, "fsync") ? -1 : real(fd);
}

int fdatasync(int fd)
{
	REAL(flusher, "fdatasync")
	return fails(fd, "fdatasync") ? -1 : real(fd);
}
