// SPDX-License-Identifier: GPL-3.0-or-later
// What must hold for any bytes: the reader comes back, it gives a site exactly when it found no
// fault, and every message has a known number and one line of text.
#include "fuzz/reader.h"

#include <byssus/site.h>

#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

static const char *judge(bys_rc rc, const bys_site *site, const bys_messages *messages)
{
    const size_t faults = bys_messages_faults(messages);
    if ((rc == BYS_OK) != (site != NULL))
        return "a site came back with a failure, or none with success";
    if (rc == BYS_OK && faults > 0)
        return "success, though faults were reported";
    if (rc == BYS_EINPUT && faults == 0)
        return "refused without a fault";
    if (rc != BYS_OK && rc != BYS_EINPUT)
        return "neither read nor refused";
    return NULL;
}

static const char *judge_messages(bys_messages *messages, bys_text *heard)
{
    const char *wrong = NULL;
    bys_messages_sort(messages);
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        const bys_message *message = bys_messages_at(messages, i);
        bys_text line = {0};
        bys_message_format(&line, messages, message);
        if (!bys_message_explain(message->code))
            wrong = "a message has an unknown number";
        else if (!message->text || !*message->text || !line.data)
            wrong = "a message is empty";
        else if (strchr(line.data, '\n'))
            wrong = "a message has more than one line";
        else if (message->place.line < 0 || message->place.column < 0)
            wrong = "a message stands nowhere";
        if (heard && line.data)
            bys_text_addf(heard, "%s\n", line.data);
        bys_text_free(&line);
    }
    return wrong;
}

const char *fuzz_reader(const unsigned char *bytes, size_t n, bys_text *heard)
{
    const int file = memfd_create("site", MFD_CLOEXEC);
    if (file < 0 || write(file, bytes, n) != (ssize_t)n)
        return "the test could not make its file";
    char path[64];
    snprintf(path, sizeof path, "/proc/self/fd/%d", file);
    bys_messages *messages;
    if (bys_messages_new(&messages) != BYS_OK)
        return "out of memory";
    bys_site *site = NULL;
    bys_error error = {0};
    const bys_rc rc = bys_site_read(&site, path, BYS_SITEFILES, messages, &error);
    close(file);
    const char *wrong = judge(rc, site, messages);
    const char *wrong_message = judge_messages(messages, heard);
    bys_site_free(site);
    bys_messages_free(messages);
    return wrong ? wrong : wrong_message;
}
