// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: reading a site file.
#ifndef BYSSUS_SITE_H
#define BYSSUS_SITE_H

#include <byssus/base.h>
#include <byssus/frame.h>

#ifdef __cplusplus
extern "C" {
#endif

/// What the user wrote. Opaque, constant after reading, may be shared by threads.
typedef struct bys_site bys_site;

/// Reads a site file with its catalogues and rule profile. All faults and warnings go to
/// `messages`. Returns BYS_EINPUT if there is any fault (then *out is NULL), BYS_ENOINPUT if the
/// file cannot be opened. data_dir: where installed profiles and catalogues lie; NULL = built-in.
bys_rc bys_site_read(bys_site **out, const char *path, const char *data_dir,
                     bys_messages *messages, bys_error *err);
/// The same, judged by an installed rule profile: the site's own <rules> are left out. NULL: as
/// the site says.
bys_rc bys_site_read_by(bys_site **out, const char *path, const char *data_dir,
                        const char *profile, bys_messages *messages, bys_error *err);
void bys_site_free(bys_site *site);
/// Ids of the installed rule profiles in order; NULL past the end. Static storage.
const char *bys_profile_installed(int i);

const char *bys_site_name(const bys_site *site);

/// Text of a commented, valid site file to start from: kind "block", "raft-grid" or "network".
/// NULL if the kind is unknown. Static storage.
const char *bys_site_template(const char *kind);

/// The reader's own table, for the schema and the man page: appends one line an attribute,
/// "element<TAB>attribute<TAB>type<TAB>required|optional<TAB>meaning", elements before attributes.
void bys_site_table(bys_text *out);

#ifdef __cplusplus
}
#endif
#endif
