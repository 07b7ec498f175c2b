/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Assertions and a temporary folder for all test programs. */
#pragma once

#include "calc/fault.h"

G_BEGIN_DECLS

/* Equal within @relative of @expected (absolute where @expected is 0). NaN equals NaN, an infinity
 * the same infinity. Prints 17 digits on failure. */
#define sw_assert_close(actual, expected, relative)                                                \
  sw_test_assert_close (__FILE__, __LINE__, G_STRFUNC, #actual, actual, expected, relative)

/* A fault with this code about this quantity; clears @error. The message must name the quantity. */
#define sw_assert_fault(error, code, quantity)                                                     \
  sw_test_assert_fault (__FILE__, __LINE__, G_STRFUNC, error, code, quantity)

void sw_test_assert_close (const char *file,
                           int line,
                           const char *function,
                           const char *expression,
                           double actual,
                           double expected,
                           double relative);
void sw_test_assert_fault (const char *file,
                           int line,
                           const char *function,
                           GError **error,
                           SwFaultCode code,
                           SwQuantityName quantity);

/* A file of the source tree, such as ("tests", "reference", "x.csv"): "tests/reference/x.csv" below
 * $SW_TEST_SOURCE. (transfer full) */
char *sw_test_source_path (const char *relative);

/* A fresh temporary folder; free removes it with all that is in it. Used as a path:
 *   g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
 *   g_autofree char *path = g_build_filename (folder, "site.db", NULL); */
typedef char SwTestFolder;
SwTestFolder *sw_test_folder_new (void);
void sw_test_folder_free (SwTestFolder *folder);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTestFolder, sw_test_folder_free)

/* A test path element from a row's name: spaces and slashes become hyphens. (transfer full) */
char *sw_test_path (const char *group, const char *name);

/* One test per row of a table whose rows start with a name: prefix/name. */
#define SW_TEST_ROWS(prefix, rows, function)                                                       \
  G_STMT_START                                                                                     \
  {                                                                                                \
    for (gsize row_ = 0; row_ < G_N_ELEMENTS (rows); row_++)                                       \
      {                                                                                            \
        g_autofree char *path_ = sw_test_path (prefix, (rows)[row_].name);                         \
        g_test_add_data_func (path_, &(rows)[row_], function);                                     \
      }                                                                                            \
  }                                                                                                \
  G_STMT_END

G_END_DECLS
