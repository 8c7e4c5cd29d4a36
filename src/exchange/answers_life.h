/* Answers about the life of gear as JSON, as answers.h has the others. */
#ifndef BECKET_EXCHANGE_ANSWERS_LIFE_H
#define BECKET_EXCHANGE_ANSWERS_LIFE_H

#include "base/spool.h"
#include "base/text.h"
#include "gear/journal.h"
#include "life/history.h"
#include "life/spending.h"
#include "life/whereabouts.h"
#include "winter/agenda.h"

/* Elements of an array that is being written (json_object.h), and a whole array; for where and
 * ashore alike. */
struct answer;
void answer_where_some(struct answer *answer, const struct known_gear *known,
    const struct whereabouts_list *list);
void answer_where(const struct known_gear *known, const struct whereabouts_list *list,
    struct text *out);

/* The first word, which comes some boats at a time and is kept until all of it is there. Starts as
 * `{ 0 }`; free with now_kept_clear. */
struct now_kept {
	struct runs runs;
	struct coming_days next;
	struct arena arena; /* of these */
};

void answer_first_word_keep(struct now_kept *kept, const struct first_word *word,
    const struct known_gear *known, const struct first_word_part *part,
    const struct whereabouts_list *ashore);
void now_kept_clear(struct now_kept *kept);

/* Writes it, one object. FAULT_FILE where it can't be read back, then behind a part of it. */
MUST_CHECK bool answer_first_word_kept(const struct now_kept *kept,
    const struct first_word *word, struct text *out, struct fault *fault);

/* An array, the latest first; only what is different unless `all`. */
void answer_came_back(const struct known_gear *known, const struct came_back_list *list,
    bool all, struct text *out);

/* One object, as the next. */
void answer_spent(
    const struct spending *spending, const char *currency, struct text *out);

void answer_history(const struct inventory *inventory, const struct history *history,
    const struct journal *journal, struct text *out);

#endif
