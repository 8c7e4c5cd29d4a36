/* A rota as CSV: one row a piece. */
#ifndef BECKET_EXCHANGE_ROTA_CSV_H
#define BECKET_EXCHANGE_ROTA_CSV_H

#include "base/text.h"
#include "rota/rota.h"

/* Columns: base kind rating vessel tag tasks state due not_before not_after station hand_in
 * collect in_its_place spare late due_again. Tasks in one cell are parted by blanks;
 * `in_its_place` is "spare", "hired", "none needed" or "none". */
void csv_write_rota(const struct rota_view *view, struct text *out);

#endif
