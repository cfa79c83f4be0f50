#include "cli/commands.hpp"

namespace inkturn {

std::vector<CommandEntry> commands() {
    constexpr const char* sit = "Sit a paper";
    constexpr const char* mark = "Mark it";
    constexpr const char* retry = "Retry what was missed";
    constexpr const char* plan = "Plan the weeks";
    constexpr const char* look = "Look at how it goes";
    constexpr const char* of_class = "A class";
    constexpr const char* data = "Papers and other data";
    return {
        {"pace", sit, add_pace},
        {"sit", sit, add_sit},
        {"set", sit, add_set},
        {"log", mark, add_log},
        {"mark", mark, add_mark},
        {"sitting", mark, add_sitting},
        {"today", retry, add_today},
        {"retry", retry, add_retry},
        {"booklet", retry, add_booklet},
        {"phone", retry, add_phone},
        {"facts", retry, add_facts},
        {"plan", plan, add_plan},
        {"week", plan, add_week},
        {"days", plan, add_days},
        {"exam", plan, add_exam},
        {"calendar", plan, add_calendar},
        {"topics", look, add_topics},
        {"trend", look, add_trend},
        {"standing", look, add_standing},
        {"report", look, add_report},
        {"class", of_class, add_class},
        {"lesson", of_class, add_lesson},
        {"paper", data, add_paper},
        {"picture", data, add_picture},
        {"award", data, add_award},
        {"boundaries", data, add_boundaries},
        {"scale", data, add_scale},
        {"candidate", data, add_candidate},
        {"export", data, add_export},
        {"import", data, add_import},
        {"changes", data, add_changes},
        {"undo", data, add_undo},
        {"redo", data, add_redo},
        {"backup", data, add_backup},
        {"restore", data, add_restore},
        {"check", data, add_check},
        {"config", data, add_config},
        {"sample", data, add_sample},
    };
}

} // namespace inkturn
