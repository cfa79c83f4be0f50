#include "cli/commands.hpp"

namespace inkturn {

std::vector<CommandEntry> commands() {
    return {
        {"paper", add_paper},     {"pace", add_pace},         {"sit", add_sit},
        {"mark", add_mark},       {"log", add_log},           {"sitting", add_sitting},
        {"today", add_today},     {"retry", add_retry},       {"plan", add_plan},
        {"week", add_week},       {"facts", add_facts},       {"topics", add_topics},
        {"trend", add_trend},     {"standing", add_standing}, {"boundaries", add_boundaries},
        {"scale", add_scale},     {"report", add_report},     {"picture", add_picture},
        {"booklet", add_booklet}, {"calendar", add_calendar}, {"days", add_days},
        {"exam", add_exam},       {"class", add_class},       {"candidate", add_candidate},
        {"export", add_export},   {"import", add_import},     {"changes", add_changes},
        {"undo", add_undo},       {"redo", add_redo},
    };
}

} // namespace inkturn
