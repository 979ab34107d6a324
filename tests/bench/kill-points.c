/*
 * Ends the process, like a kill, right before its n-th writing call to the system, or with half of that write done. For
 * tests/bench/kill-points.mjs; on Linux with glibc: cc -shared -fPIC -o kill-points.so kill-points.c -ldl
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

static atomic_long left = -1;
static atomic_int begun = 0;

/* Whether this is the call to die at. */
static int due(void) {
  if (!atomic_exchange(&begun, 1)) {
    const char *at = getenv("KILL_AT");
    atomic_store(&left, at == NULL ? -1 : atol(at));
  }
  if (atomic_load(&left) < 0) return 0;
  return atomic_fetch_sub(&left, 1) == 1;
}

static void die(void) { kill(getpid(), SIGKILL); for (;;) pause(); }

#define REAL(name) static __typeof__(&name) real; if (real == NULL) real = (__typeof__(&name))dlsym(RTLD_NEXT, #name)
#define CALL(type, name, params, args) type name params { REAL(name); if (due()) die(); return real args; }

CALL(int, rename, (const char *a, const char *b), (a, b))
CALL(int, link, (const char *a, const char *b), (a, b))
CALL(int, unlink, (const char *a), (a))
CALL(int, rmdir, (const char *a), (a))
CALL(int, mkdir, (const char *a, mode_t m), (a, m))
CALL(int, fsync, (int fd), (fd))
CALL(int, fdatasync, (int fd), (fd))
CALL(int, fchmod, (int fd, mode_t m), (fd, m))
CALL(int, ftruncate64, (int fd, off64_t n), (fd, n))

static int writes(int flags) { return (flags & (O_WRONLY | O_RDWR | O_CREAT)) != 0; }

#define OPEN(name) int name(const char *path, int flags, ...) { \
  REAL(name); va_list more; va_start(more, flags); int mode = va_arg(more, int); va_end(more); \
  if (writes(flags) && due()) die(); return real(path, flags, mode); }
OPEN(open)
OPEN(open64)

ssize_t write(int fd, const void *bytes, size_t n) {
  REAL(write);
  struct stat found;
  /* Messages between threads are no writing. */
  if (fd > 2 && fstat(fd, &found) == 0 && !S_ISREG(found.st_mode)) return real(fd, bytes, n);
  if (due()) die();
  if (fd > 2 && due()) { real(fd, bytes, n / 2); die(); }
  return real(fd, bytes, n);
}

ssize_t pwrite64(int fd, const void *bytes, size_t n, off64_t at) {
  REAL(pwrite64);
  if (due()) die();
  if (due()) { real(fd, bytes, n / 2, at); die(); }
  return real(fd, bytes, n, at);
}

ssize_t writev(int fd, const struct iovec *parts, int n) {
  REAL(writev);
  if (due()) die();
  return real(fd, parts, n);
}
