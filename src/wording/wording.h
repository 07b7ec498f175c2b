/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How facts are said: the language, decimal mark, zone, units and paper of one reader.
 *
 * An SwWording is passed to every function that makes text, so that the window can speak German
 * while an export is written in French. Messages come from catalogues bound under
 * "stillwarden-<lang>"; English is the source language and needs none. Nothing here depends on the
 * process's locale.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _SwWording SwWording;

typedef enum
{
  SW_PAPER_A4,
  SW_PAPER_LETTER
} SwPaper;

/* @language "de", "pt_BR", "en", the pseudo-locale "xx", or NULL for the environment's (LANGUAGE,
 * LC_ALL, LC_MESSAGES, LANG; the first that has a catalogue, else English); @zone an IANA name or
 * NULL for the PC's, which is also taken for a name that is unknown. The decimal mark follows the
 * language, unless LC_ALL/LC_NUMERIC name a territory of that language with another one (de_CH), or
 * the language is the environment's: then the territory alone decides. Never NULL. (transfer full)
 */
SwWording *sw_wording_new (const char *language, const char *zone);
SwWording *sw_wording_ref (SwWording *wording);
void sw_wording_unref (SwWording *wording);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwWording, sw_wording_unref)

const char *sw_wording_get_language (const SwWording *wording);
/* The gettext domain of the reader's catalogue, for textdomain() before a window is built from
 * templates; NULL for the source language. (transfer none) */
const char *sw_wording_get_domain (const SwWording *wording);
const char *sw_wording_get_decimal_mark (const SwWording *wording); /* "." or "," */
GTimeZone *sw_wording_get_zone (const SwWording *wording);          /* (transfer none) */
SwPaper sw_wording_get_paper (const SwWording *wording);
gboolean sw_wording_is_right_to_left (const SwWording *wording);

/* Prepares gettext: binds the domain of each catalogue, appends "xx" to LANGUAGE. Call once at the
 * start of a program, after setlocale() and before any thread; without it everybody reads English.
 * @locale_dir NULL = installed one, or SW_LOCALE_DIR of the environment for a build tree. */
void sw_wording_init (const char *locale_dir);

/* Translation of a whole sentence in this reader's language; never NULL. (transfer none) */
const char *sw_tr (const SwWording *wording, const char *message) G_GNUC_FORMAT (2);
const char *sw_trc (const SwWording *wording, const char *context, const char *message)
    G_GNUC_FORMAT (3);
const char *sw_trn (const SwWording *wording, const char *singular, const char *plural, gulong n)
    G_GNUC_FORMAT (2) G_GNUC_FORMAT (3);

G_END_DECLS
