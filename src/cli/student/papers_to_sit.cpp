#include "cli/student/papers_to_sit.hpp"

#include "inkturn/practice/offered.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/printed_sets.hpp"
#include "inkturn/store/question_bank.hpp"
#include "view/text/text.hpp"

namespace inkturn {

PapersOfPlans::PapersOfPlans(const Store& store)
    : store_(store),
      papers_(store.papers()),
      copies_(DrawnPapers::copies(store)),
      kept_unseen_(QuestionBank::kept_unseen(store)),
      printed_(PrintedSets::all(store)),
      drawn_(drawn_papers(papers_, copies_)),
      drawn_on_(drawn_for_practice()),
      begun_(store.classes().empty() ? PaperIds{} : PapersOnFile::begun(store)) {}

/// Nothing in a set for a class was met by any of its members before.
std::map<std::string, std::optional<Day>> PapersOfPlans::drawn_for_practice() const {
    std::map<std::string, std::optional<Day>> days;
    if (drawn_.empty())
        return days;
    for (const std::string& id : drawn_)
        days[id] = std::nullopt;
    for (const auto& [id, day] : QuestionBank::days_added(store_))
        if (const auto drawn = days.find(id); drawn != days.end())
            drawn->second = day;
    for (const PrintedSet& set : printed_)
        if (set.of_class.empty())
            days[set.paper] = set.day;
        else
            days.erase(set.paper);
    return days;
}

PaperIds PapersOfPlans::of_others(const std::vector<std::string>& classes) const {
    std::vector<PaperIds> of_classes;
    for (const std::string& name : classes) {
        auto known = of_classes_.find(name);
        if (known == of_classes_.end())
            known = of_classes_.emplace(name, PapersOnFile::of_class(store_, name)).first;
        of_classes.push_back(known->second);
    }
    return papers_of_others(begun_, of_classes);
}

SittingsRequest PapersOfPlans::request_for(const Candidate& candidate, const std::vector<Script>& scripts,
                                           Day today) const {
    SittingsRequest request;
    const std::vector<std::string> classes = store_.classes_of(candidate.code);
    request.papers =
        offered_papers(papers_, candidate, {classes.begin(), classes.end()}, kept_unseen_, printed_, today);
    for (const Script& script : scripts)
        if (!script.id.retry)
            request.on_desk.insert(script.paper->id());
    request.of_others = of_others(classes);
    request.drawn = drawn_;
    request.met = questions_met_in_copies(copies_, drawn_on_, candidate, scripts);
    return request;
}

std::set<std::string> PapersOfPlans::to_sit(const Candidate& candidate, Day today) const {
    const SittingsRequest request = request_for(candidate, Desk::scripts(store_, candidate.code), today);
    std::set<std::string> ids;
    for (const PaperToSit& paper : sittings_ahead(candidate, request, today).papers)
        if (paper.paper)
            ids.insert(paper.paper->id());
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
