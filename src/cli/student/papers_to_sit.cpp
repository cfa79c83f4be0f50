#include "cli/student/papers_to_sit.hpp"

#include "cli/student/timetable_on_file.hpp"
#include "view/text/text.hpp"

#include <variant>

namespace inkturn {

std::set<std::string> papers_to_sit(const Store& store, const Candidate& candidate, Day today) {
    std::set<std::string> ids;
    for (const WorkItem& item : timetable_on_file(store, candidate, today).made.items)
        if (const auto* paper = std::get_if<PaperToSit>(&item.work); paper && paper->paper)
            ids.insert(paper->paper->id());
    return ids;
}

std::string to_sit_text(const std::vector<Drawable>& questions, const std::string& plan, bool is_stored) {
    std::vector<std::string> numbers;
    std::set<std::string> papers;
    std::set<std::string> sources; // not drawn papers
    for (std::size_t i = 0; i < questions.size(); ++i) {
        const std::string& to_sit = questions[i].to_sit;
        if (to_sit.empty())
            continue;
        numbers.push_back(std::to_string(i + 1));
        papers.insert(to_sit);
        if (to_sit == questions[i].paper->id())
            sources.insert(to_sit);
    }
    if (papers.empty())
        return "";
    std::string text = numbers.size() == 1 ? "Question " + numbers.front() + " is"
                       : numbers.size() == questions.size()
                           ? "All questions are"
                           : "Questions " + joined(numbers, " and ") + " are";
    text += " in " + joined({papers.begin(), papers.end()}, " and ") + ", which " + plan +
            " keeps for a whole sitting.";
    if (!sources.empty())
        text += std::string(" To keep ") + (papers.size() == 1 ? "it" : "one of them") +
                " unseen for a mock, and off every plan: " + (is_stored ? "inkturn undo, then " : "") +
                "inkturn paper amend " + *sources.begin() + " --keep-unseen yes";
    return text_line(text);
}

} // namespace inkturn
