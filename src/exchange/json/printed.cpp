#include "exchange/json/value.hpp"
#include "inkturn/printed/paper.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

namespace inkturn {
namespace {

std::string codes_in(const PrintedScheme& scheme, const std::string& label) {
    const auto part = std::find_if(scheme.parts.begin(), scheme.parts.end(),
                                   [&](const PrintedSchemePart& other) { return other.label == label; });
    return part == scheme.parts.end() ? "" : part->codes;
}

Json labels_of(const PrintedPaper& paper, const PrintedQuestion& question) {
    Json labels = Json::array();
    for (const std::size_t part : question.parts)
        labels.push_back(paper.parts[part].label);
    return labels;
}

/// Pages as people count them, from 1.
Json pages_of(const std::vector<PrintedQuestion>& questions, const std::string& label) {
    std::set<std::size_t> pages;
    for (const PrintedQuestion& question : questions)
        if (question.label == label)
            for (const PageStrip& strip : question.strips)
                pages.insert(strip.page + 1);
    return pages;
}

/// To two places.
double hundredths(Points length) {
    return std::round(length.value() * 100) / 100;
}

Json strips_of(const PrintedQuestion& question) {
    Json strips = Json::array();
    for (const PageStrip& strip : question.strips)
        strips.push_back({{"page", strip.page + 1},
                          {"top", hundredths(strip.top)},
                          {"bottom", hundredths(strip.bottom)},
                          {"left", hundredths(strip.left)},
                          {"right", hundredths(strip.right)}});
    return strips;
}

void add_doubts(Json& list, const std::vector<Doubt>& doubts, std::string_view document) {
    for (const Doubt& doubt : doubts)
        list.push_back({{"document", document},
                        {"page", doubt.page ? Json(*doubt.page + 1) : Json(nullptr)},
                        {"message", doubt.message}});
}

} // namespace

Json value_of(const PrintedPaper& paper, const PrintedScheme& scheme) {
    Json parts = Json::array();
    for (const PrintedPart& part : paper.parts)
        parts.push_back({{"part", part.label},
                         {"marks", count_or_null(part.marks)},
                         {"page", part.page ? Json(*part.page + 1) : Json(nullptr)},
                         {"codes", codes_in(scheme, part.label)}});
    Json questions = Json::array();
    for (const PrintedQuestion& question : paper.questions)
        questions.push_back({{"question", question.label},
                             {"total", count_or_null(question.total)},
                             {"parts", labels_of(paper, question)},
                             {"strips", strips_of(question)},
                             {"scheme_pages", pages_of(scheme.questions, question.label)}});
    Json choices = Json::array();
    for (const PrintedChoice& choice : paper.choices)
        choices.push_back({{"count", choice.count}, {"questions", choice.questions}});
    Json doubts = Json::array();
    add_doubts(doubts, paper.doubts, "paper");
    add_doubts(doubts, scheme.doubts, "scheme");
    return {{"duration_seconds", paper.duration ? Json(paper.duration->count()) : Json(nullptr)},
            {"total", count_or_null(paper.total)},
            {"parts", std::move(parts)},
            {"questions", std::move(questions)},
            {"choices", std::move(choices)},
            {"doubts", std::move(doubts)}};
}

} // namespace inkturn
