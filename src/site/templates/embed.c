// SPDX-License-Identifier: GPL-3.0-or-later
// Run while building: writes files as C arrays. embed OUT.c NAME=FILE...
#include <stdio.h>
#include <string.h>

static int add_file(FILE *out, const char *name, size_t n, const char *path)
{
    FILE *in = fopen(path, "rb");
    if (!in)
        return 1;
    fprintf(out, "const char bys_embedded_%.*s[] = {", (int)n, name);
    int c, column = 0;
    while ((c = fgetc(in)) != EOF)
        fprintf(out, "%s%d,", column++ % 20 ? "" : "\n    ", c > 127 ? c - 256 : c);
    fprintf(out, "0};\n");
    return fclose(in);
}

int main(int count, char **words)
{
    FILE *out = count > 1 ? fopen(words[1], "wb") : NULL;
    if (!out)
        return 1;
    fprintf(out, "#include \"site/templates/embedded.h\"\n");
    for (int i = 2; i < count; i++) {
        size_t n = strcspn(words[i], "=");
        if (!words[i][n] || add_file(out, words[i], n, words[i] + n + 1) != 0)
            return 1;
    }
    return fclose(out) != 0;
}
