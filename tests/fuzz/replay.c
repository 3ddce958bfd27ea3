// SPDX-License-Identifier: GPL-3.0-or-later
// replay FOLDER...: runs the reader over every file of the folders, and over copies damaged in a
// fixed, repeatable way. Under the sanitizers this also finds reads and writes out of bounds; without
// them (they write to standard error) it also sees whether the reader prints anything.
#include "fuzz/reader.h"

#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

enum { DAMAGED_COPIES = 60, LARGEST = 1 << 20 };

typedef struct {
    unsigned char *bytes;
    size_t n;
} blob;

static blob load(const char *path)
{
    blob out = {malloc(LARGEST), 0};
    FILE *file = fopen(path, "rb");
    if (file && out.bytes)
        out.n = fread(out.bytes, 1, LARGEST, file);
    if (file)
        fclose(file);
    return out;
}

/// xorshift64: the same damage on every machine.
static size_t draw(uint64_t *seed, size_t below)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return below ? (size_t)(*seed % below) : 0;
}

/// Cuts, doubles, swaps or overwrites a stretch of the bytes. `out` has room for 2*n.
static size_t damage(unsigned char *out, const blob *in, uint64_t *seed)
{
    static const char *const nasty[] = {"<",  ">",   "\"",   "&",    "&#0;", "\xff", "\xc3",
                                        "",   "1e999", "-0", "nan",  "]]>",  "<!--", "<?x",
                                        "\r", "\t",  "0x10", "1,5 m", "1e-400 m", "m"};
    const size_t at = draw(seed, in->n + 1);
    size_t span = draw(seed, draw(seed, 4) ? 12 : in->n + 1);
    if (span > in->n - at)
        span = in->n - at;
    memcpy(out, in->bytes, in->n);
    if (draw(seed, 3) == 0) { // cut
        memmove(out + at, out + at + span, in->n - at - span);
        return in->n - span;
    }
    if (draw(seed, 2) == 0) { // double
        memcpy(out + at + span, in->bytes + at, in->n - at);
        return in->n + span;
    }
    const char *bad = nasty[draw(seed, sizeof nasty / sizeof nasty[0])];
    const size_t length = strlen(bad);
    if (at + length <= in->n)
        memcpy(out + at, bad, length);
    return in->n;
}

/// Two runs over the same bytes: nothing wrong, and the same words both times.
static const char *run_twice(const unsigned char *bytes, size_t n)
{
    bys_text first = {0}, second = {0};
    const char *wrong = fuzz_reader(bytes, n, &first);
    if (!wrong)
        wrong = fuzz_reader(bytes, n, &second);
    if (!wrong && strcmp(first.data ? first.data : "", second.data ? second.data : ""))
        wrong = "two runs over the same bytes differ";
    bys_text_free(&first);
    bys_text_free(&second);
    return wrong;
}

static const char *run_copies(const char *path)
{
    blob in = load(path);
    unsigned char *copy = malloc(2 * in.n + 16);
    const char *wrong = in.bytes && copy ? run_twice(in.bytes, in.n) : "out of memory";
    uint64_t seed = 0x9e3779b97f4a7c15u + in.n;
    for (int i = 0; i < DAMAGED_COPIES && !wrong; i++) {
        const size_t n = damage(copy, &in, &seed);
        wrong = fuzz_reader(copy, n, NULL);
        if (wrong)
            printf("# damaged copy %d of %s\n", i, path);
    }
    free(copy);
    free(in.bytes);
    return wrong;
}

#if defined(__SANITIZE_ADDRESS__)
static const char *run_file(const char *path)
{
    return run_copies(path);
}
#else
/// With standard error turned into a file in memory, which must stay empty.
static const char *run_file(const char *path)
{
    const int kept = dup(STDERR_FILENO), caught = memfd_create("stderr", MFD_CLOEXEC);
    if (kept < 0 || caught < 0 || dup2(caught, STDERR_FILENO) < 0)
        return "the test could not catch standard error";
    const char *wrong = run_copies(path);
    fflush(stderr);
    dup2(kept, STDERR_FILENO);
    char said[200];
    const ssize_t n = pread(caught, said, sizeof said - 1, 0);
    close(caught);
    close(kept);
    if (wrong || n <= 0)
        return wrong;
    said[n] = '\0';
    said[strcspn(said, "\n")] = '\0';
    printf("# said: %s\n", said);
    return "the reader printed something";
}
#endif

static void run_folder(const char *folder, int *count, int *failed)
{
    struct dirent **entries;
    const int n = scandir(folder, &entries, NULL, alphasort);
    for (int i = 0; i < n; i++) {
        char path[4096];
        snprintf(path, sizeof path, "%s/%s", folder, entries[i]->d_name);
        struct stat about;
        if (stat(path, &about) == 0 && S_ISREG(about.st_mode)) {
            const char *wrong = run_file(path);
            printf("%sok %d - %s%s%s\n", wrong ? "not " : "", ++*count, entries[i]->d_name,
                   wrong ? ": " : "", wrong ? wrong : "");
            *failed += wrong != NULL;
        }
        free(entries[i]);
    }
    if (n >= 0)
        free(entries);
}

int main(int argc, char **argv)
{
    int count = 0, failed = 0;
    for (int i = 1; i < argc; i++)
        run_folder(argv[i], &count, &failed);
    printf("1..%d\n", count);
    return count == 0 || failed > 0;
}
