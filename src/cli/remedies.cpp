#include "cli/remedies.hpp"

#include "view/text/text.hpp"

namespace inkturn {
namespace {

/// The text after the message.
std::string remedy_text(Error::Remedy remedy, const std::string& about) {
    switch (remedy) {
    case Error::Remedy::none:
        return "";
    case Error::Remedy::use_name_meant:
        return "; did you mean " + about + "?";
    case Error::Remedy::give_all_marks:
        return ": add them, or use --rest full (all earned in time) or --rest none (not attempted)";
    case Error::Remedy::give_other_paper_id:
        return "; give another --id, or remove that one first";
    case Error::Remedy::show_paper:
        return "; 'inkturn paper show " + about + "' lists its parts";
    case Error::Remedy::see_sitting:
        return "; 'inkturn sitting list' shows it";
    case Error::Remedy::list_sittings:
        return "; 'inkturn sitting list' lists those on file";
    case Error::Remedy::amend_sitting:
        return "; 'inkturn sitting amend' corrects it";
    case Error::Remedy::mark_or_remove_script:
        return ": once it is handed in, 'inkturn mark " + about +
               "' enters its marks; 'inkturn sitting remove " + about + "' removes it";
    case Error::Remedy::resume_or_mark_script:
        return ": 'inkturn sit --resume' continues it, 'inkturn mark " + about + "' enters its marks";
    case Error::Remedy::see_retry_ids:
        return ": write it as 'inkturn today' shows it, such as 12q7 or 12q7t2";
    case Error::Remedy::list_retries:
        return "; 'inkturn plan' lists what is open";
    case Error::Remedy::undo_retry:
        return "; 'inkturn retry " + about + " --undo' undoes that";
    case Error::Remedy::see_retry_rule:
        return "; 'inkturn plan --missed-from 1 --slips on' makes one of each miss";
    case Error::Remedy::undo_retry_first:
        return "; undo that first: inkturn retry " + about + " --undo";
    case Error::Remedy::give_day_time:
        return "; ask for another day, or give it more time: inkturn days on " + about + "=MINUTES";
    case Error::Remedy::take_back_paper:
        return "; 'inkturn plan --paper " + about + " --undo' takes that back";
    case Error::Remedy::take_back_topic:
        return "; 'inkturn plan --topic=" + shell_word(about) + " --undo' takes that back";
    case Error::Remedy::list_fact_topics:
        return "; 'inkturn facts list' lists the topics";
    case Error::Remedy::see_fact:
        return "; 'inkturn facts list' shows it";
    case Error::Remedy::show_sheet:
        return "; 'inkturn facts sheet " + about + "' shows its rows";
    case Error::Remedy::undo_sheet_log:
        return "; 'inkturn facts log " + about + " --undo' undoes that";
    case Error::Remedy::undo_sheet_log_first:
        return "; undo that first: inkturn facts log " + about + " --undo";
    case Error::Remedy::see_exam:
        return "; 'inkturn exam list' shows it";
    case Error::Remedy::remove_award:
        return "; remove that one first: inkturn award remove " + shell_word(about);
    case Error::Remedy::remove_boundary_set:
        return "; remove that one first: inkturn boundaries remove " + about;
    case Error::Remedy::list_awards:
        return "; 'inkturn award list' lists the awards";
    case Error::Remedy::list_boundary_sets:
        return "; 'inkturn boundaries list' shows the sets with their grades";
    case Error::Remedy::list_classes:
        return "; 'inkturn class list' lists the classes";
    case Error::Remedy::list_members:
        return "; 'inkturn class members " + about + "' lists its members";
    case Error::Remedy::list_lessons:
        return "; 'inkturn lesson list' lists the lessons";
    }
    return "";
}

} // namespace

std::string worded(const Error& error) {
    if (error.kind() == Error::Kind::damaged)
        return error.what() +
               std::string(
                   "; 'inkturn check' says what is wrong, 'inkturn restore FILE' goes back to a backup");
    return error.what() + remedy_text(error.remedy(), error.about());
}

std::string worded(const Problem& problem) {
    return problem.message + remedy_text(problem.remedy, problem.about);
}

} // namespace inkturn
