// SPDX-License-Identifier: GPL-3.0-or-later
// Reads a site file and prints all its faults and warnings.
//
//     cc faults.c $(pkg-config --cflags --libs byssus) -o faults
//     ./faults my-lease.xml
//
// Exit status: 0 no fault, 65 faults in the file, 66 no such file.
#include <byssus/site.h>

#include <stdio.h>

static void print_messages(const bys_messages *messages)
{
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        bys_text line = {0};
        bys_message_format(&line, messages, bys_messages_at(messages, i));
        puts(line.data ? line.data : "out of memory");
        bys_text_free(&line);
    }
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fputs("usage: faults SITE\n", stderr);
        return BYS_EUSAGE;
    }
    bys_messages *messages;
    if (bys_messages_new(&messages) != BYS_OK)
        return BYS_ENOMEM;
    bys_site *site = NULL;
    bys_error error = {0};
    const bys_rc rc = bys_site_read(&site, argv[1], NULL, messages, &error);
    bys_messages_sort(messages);
    print_messages(messages);
    if (rc == BYS_OK)
        printf("%s: no fault\n", bys_site_name(site));
    else if (bys_messages_count(messages) == 0)
        puts(error.text);
    bys_site_free(site);
    bys_messages_free(messages);
    return rc;
}
