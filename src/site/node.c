// SPDX-License-Identifier: GPL-3.0-or-later
// Reading typed values from a checked tree, naming its nodes, and the nearest of some words.
#include "base/number.h"
#include "site/check.h"

#include <string.h>

const char *bys_node_text(const bys_xml_node *node, const char *name)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    return a ? a->value : "";
}

bool bys_node_has(const bys_xml_node *node, const char *name)
{
    return bys_xml_find(node, name) != NULL;
}

bool bys_node_ok(const bys_xml_node *node, const char *name)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    return a && a->ok;
}

double bys_node_number(const bys_xml_node *node, const char *name, double other)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    return a && a->ok ? a->number : other;
}

int bys_node_count(const bys_xml_node *node, const char *name, int other)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    return a && a->ok ? (int)a->number : other;
}

int bys_node_choice(const bys_xml_node *node, const char *name, int other)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    return a && a->ok ? a->choice : other;
}

bool bys_node_flag(const bys_xml_node *node, const char *name, bool other)
{
    return bys_node_number(node, name, other ? 1 : 0) != 0;
}

bys_place bys_node_place(const bys_xml_node *node, const char *name)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    return a ? a->place : node->place;
}

bool bys_node_is(const bys_xml_node *node, const char *key)
{
    return node->rule && strcmp(node->rule->key, key) == 0;
}

const bys_xml_node *bys_node_next(const bys_xml_node *parent, const bys_xml_node *last,
                                  const char *key)
{
    const bys_xml_node *node = !parent ? NULL : last ? last->next : parent->first;
    while (node && !bys_node_is(node, key))
        node = node->next;
    return node;
}

int bys_node_number_of(const bys_xml_node *parent, const char *key)
{
    int n = 0;
    for (const bys_xml_node *node = NULL; (node = bys_node_next(parent, node, key));)
        n++;
    return n;
}

bys_label bys_node_label(const bys_xml_node *node)
{
    // What tells one element from its like, in the order of how well it does.
    static const char *const names[] = {"id", "line", "for", "at", "point", "of", "part",
                                        "pattern", "name", "return"};
    bys_label label;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const bys_xml_attr *a = bys_xml_find(node, names[i]);
        if (a && *a->value) {
            bys_format(label.text, sizeof label.text, "<%.30s %s=\"%.60s\">", node->name, names[i],
                       a->value);
            return label;
        }
    }
    bys_format(label.text, sizeof label.text, "<%.60s>", node->name);
    return label;
}

enum { LONGEST = 40 };

static int least(int a, int b, int c)
{
    int m = a < b ? a : b;
    return m < c ? m : c;
}

// Optimal string alignment: insert, delete, replace, or swap two neighbours, each costs 1;
// d(i, j) of the first i letters of a and the first j of b. Upper and lower case are one.
static int edit_distance(const char *a, const char *b)
{
    int n = (int)strlen(a), m = (int)strlen(b);
    if (n > LONGEST || m > LONGEST)
        return LONGEST;
    int d[LONGEST + 1][LONGEST + 1];
    for (int i = 0; i <= n; i++)
        d[i][0] = i;
    for (int j = 0; j <= m; j++)
        d[0][j] = j;
    for (int i = 1; i <= n; i++)
        for (int j = 1; j <= m; j++) {
            bool same = strncasecmp(a + i - 1, b + j - 1, 1) == 0;
            d[i][j] = least(d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + !same);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] &&
                d[i - 2][j - 2] + 1 < d[i][j])
                d[i][j] = d[i - 2][j - 2] + 1;
        }
    return d[n][m];
}

bys_near bys_near_start(const char *word)
{
    return (bys_near){word, NULL, LONGEST};
}

void bys_near_try(bys_near *near, const char *candidate)
{
    int d = edit_distance(near->word, candidate);
    if (d < near->distance) {
        near->distance = d;
        near->best = candidate;
    }
}

const char *bys_near_best(const bys_near *near)
{
    if (!near->best)
        return NULL;
    // A third of the letters may be wrong, and one in any case but the shortest words.
    int length = (int)strlen(near->word);
    int most = length < 3 ? 1 : (length + 2) / 3;
    return near->distance <= most && near->distance < (int)strlen(near->best) ? near->best : NULL;
}
