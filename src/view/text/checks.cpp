#include "view/text/checks.hpp"

#include "inkturn/practice/free_id.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <map>
#include <utility>

namespace inkturn {
namespace {

std::string command_for_check(const TopicToCheck& check, const PapersForChecks& papers) {
    if (const UnseenPaper* drawn = find_drawn(check, papers.drawn))
        return "sit " + drawn->id;
    std::string command = "paper draw";
    for (const std::string& topic : check.topics)
        command += " --topic=" + shell_word(topic);
    return command + (check.subject.empty() ? "" : " --subject=" + shell_word(check.subject)) +
           (check.lesson.empty() ? " --minutes 15"
                                 : " --questions " + std::to_string(TopicToCheck::questions_after_lesson)) +
           " --unseen --id " + free_paper_id("check", check.topic, papers.ids);
}

} // namespace

std::string command_for_check(const Candidate& candidate, const PlannedWork& planned,
                              const PapersForChecks& papers) {
    const LessonPlace* lesson = find_lesson_attended(candidate, planned.subject, planned.name);
    TopicToCheck check{planned.subject, planned.name, planned.day, {}, false, {planned.name}};
    if (lesson) {
        check.topics = lesson->topics;
        check.lesson = lesson->lesson;
    }
    return command_for_check(check, papers);
}

namespace {

using ChecksByTopic = std::map<std::pair<std::string, std::string>, std::string>; ///< their commands

std::string text_of_checks(const ChecksByTopic& checks, const std::string& same_candidate) {
    std::string text;
    for (const auto& [name, command] : checks) {
        std::string line = "To check " + visible(name.second) + ": inkturn ";
        text += wrapped(line.append(command).append(same_candidate), text_width(), 2) + '\n';
    }
    return text;
}

} // namespace

std::string checks_text(const Plan& plan, const PapersForChecks& papers, const std::string& same_candidate) {
    ChecksByTopic checks;
    for (const PlannedDay& day : plan.days)
        for (const WorkItem& item : day.items)
            if (const auto* check = std::get_if<TopicToCheck>(&item.work))
                checks[{check->subject, check->topic}] = command_for_check(*check, papers);
    return text_of_checks(checks, same_candidate);
}

std::string checks_text(const std::vector<PlannedWork>& planned, const Candidate& candidate,
                        const PapersForChecks& papers, const std::string& same_candidate) {
    ChecksByTopic checks;
    for (const PlannedWork& work : planned)
        if (work.what == WorkPurpose::check)
            checks[{work.subject, work.name}] = command_for_check(candidate, work, papers);
    return text_of_checks(checks, same_candidate);
}

std::string unchecked_text(const std::vector<UncheckedTopic>& unchecked) {
    std::map<std::vector<std::string>, std::vector<std::string>> topics; // by papers
    for (const UncheckedTopic& one : unchecked)
        topics[one.papers].push_back(visible(one.topic));
    std::string text;
    for (const auto& [papers, of_papers] : topics)
        text +=
            text_line("To check " + joined(of_papers, " and ") + ": " +
                      (papers.empty() ? "no unseen question can be drawn. Add a paper that has one (inkturn "
                                        "paper add)."
                                      : "sit " + joined(papers, " or ") +
                                            ", as no unseen question is short enough to be drawn."));
    return text;
}

} // namespace inkturn
