/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The solvent's form, which the machine's form shows inside itself too. */
#pragma once

#include "app/setup/record-editor.h"

extern const SwRecordSpec sw_solvent_record_spec;
