/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Macros of GLib and of our own that cppcheck cannot see through: empty for it. */
#define G_GNUC_FORMAT(position)
#define G_GNUC_PRINTF(format, first)
#define G_DEFINE_EXTENDED_ERROR(Type, name)
#define G_DEFINE_QUARK(quark, name)
#define G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC(Type, function)
#define G_DEFINE_AUTOPTR_CLEANUP_FUNC(Type, function)
#define G_DECLARE_FINAL_TYPE(Type, name, MODULE, OBJECT, Parent)
#define G_DEFINE_FINAL_TYPE(Type, name, Parent)
#define G_DEFINE_TYPE(Type, name, Parent)
#define SW_DECLARE_RECORD(Type, name)
#define SW_DEFINE_RECORD(Type, name, table)
