#include "exchange/document/copies.hpp"

#include "exchange/document/strict_json.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/drawn_papers.hpp"

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

/// By the first of each.
void sort_copies(std::vector<Copies>& sets) {
    std::sort(sets.begin(), sets.end(),
              [](const Copies& a, const Copies& b) { return a.front() < b.front(); });
}

QuestionName read_name(const JsonValue& value, const PapersById& papers) {
    value.check_keys({"paper", "question"});
    QuestionName name{value.at("paper").text(), value.at("question").text()};
    if (!get_paper(papers, value.at("paper"))->find_question(name.question))
        value.at("question").refuse("paper " + name.paper + " has no question " + name.question);
    return name;
}

} // namespace

const std::shared_ptr<const Paper>& get_paper(const PapersById& papers, const JsonValue& id) {
    const auto paper = papers.find(id.text());
    if (paper == papers.end())
        id.refuse("paper " + id.text() + " is not among the document's papers");
    return paper->second;
}

void add_sources(const Store& store, PapersById& papers) {
    std::set<std::string> sources;
    for (const Copies& same : DrawnPapers::copies(store))
        for (const QuestionName& copy : same)
            if (papers.count(copy.paper) > 0)
                sources.insert(same.front().paper);
    for (const std::string& id : sources)
        papers.emplace(id, store.find_paper(id));
}

std::vector<Copies> exported_copies(const Store& store,
                                    const std::vector<std::shared_ptr<const Paper>>& papers) {
    std::set<std::string> ids;
    for (const auto& paper : papers)
        ids.insert(paper->id());
    std::vector<Copies> sets;
    for (const Copies& same : DrawnPapers::copies(store)) {
        Copies kept;
        for (const QuestionName& copy : same)
            if (ids.count(copy.paper) > 0)
                kept.push_back(copy);
        if (kept.size() > 1)
            sets.push_back(std::move(kept));
    }
    sort_copies(sets);
    return sets;
}

void note_copies(Store::Change& change, const std::vector<Copies>& copies) {
    for (const Copies& same : copies)
        for (std::size_t i = 1; i < same.size(); ++i)
            DrawnPapers(change).note_copy(same.front(), same[i]);
}

Json value_of(const std::vector<Copies>& copies) {
    Json sets = Json::array();
    for (const Copies& same : copies) {
        Json names = Json::array();
        for (const QuestionName& copy : same)
            names.push_back({{"paper", copy.paper}, {"question", copy.question}});
        sets.push_back(std::move(names));
    }
    return sets;
}

std::vector<Copies> read_copies(const JsonValue& value, const PapersById& papers) {
    std::vector<Copies> sets;
    std::set<QuestionName> known;
    value.each_element([&](const JsonValue& same) {
        Copies& copies = sets.emplace_back();
        same.each_element([&](const JsonValue& element) {
            copies.push_back(read_name(element, papers));
            if (!known.insert(copies.back()).second)
                element.refuse("question " + copies.back().question + " of " + copies.back().paper +
                               " is there twice");
        });
        if (copies.size() < 2)
            same.refuse("copies are two questions or more");
    });
    sort_copies(sets);
    return sets;
}

} // namespace inkturn
