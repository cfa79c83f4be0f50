#include "inkturn/practice/question_set.hpp"

#include "core/practice/first_copies.hpp"
#include "core/practice/knapsack.hpp"
#include "core/practice/question_topic.hpp"
#include "core/practice/was_tried.hpp"
#include "inkturn/clock/allowance.hpp"

#include <algorithm>
#include <map>

namespace inkturn {
namespace {

std::set<QuestionName> firsts_of(const FirstCopies& firsts, const std::set<QuestionName>& names) {
    std::set<QuestionName> all;
    for (const QuestionName& name : names)
        all.insert(firsts.of(name));
    return all;
}

/// What is left out, by the first of its copies.
struct LeftOut {
    LeftOut(const FirstCopies& firsts, const std::vector<std::shared_ptr<const Paper>>& papers,
            const SetFrom& from)
        : kept_unseen(firsts.firsts_in(papers, from.kept_unseen)),
          met(firsts_of(firsts, from.met)),
          printed(firsts_of(firsts, from.printed)),
          waiting(firsts_of(firsts, from.waiting)) {}

    std::set<QuestionName> kept_unseen;
    std::set<QuestionName> met;
    std::set<QuestionName> printed;
    std::set<QuestionName> waiting;
};

void add_to(SetStock& stock, const LeftOut& left_out, const QuestionName& name, SetQuestion question) {
    if (left_out.kept_unseen.count(name) > 0)
        ++stock.kept_unseen;
    else if (left_out.met.count(name) > 0)
        ++stock.met;
    else if (left_out.printed.count(name) > 0)
        ++stock.printed;
    else if (left_out.waiting.count(name) > 0)
        ++stock.waiting;
    else
        stock.questions.push_back(std::move(question));
}

bool is_asked_for(const Paper& paper, const SetFrom& from) {
    return (from.subject.empty() || paper.subject() == from.subject) &&
           (!from.papers || from.papers->count(paper.id()) > 0);
}

/// Adds those of a paper that are on the topics.
void add_questions(SetStock& stock, const std::shared_ptr<const Paper>& paper, const FirstCopies& firsts,
                   const LeftOut& left_out, const std::map<QuestionName, std::string>& to_sit,
                   const SetFrom& from) {
    std::optional<std::vector<Seconds>> allowances; // few papers have a question that is asked for
    for (std::size_t position = 0; position < paper->questions().size(); ++position) {
        const Question& question = paper->questions()[position];
        const auto about = topic_of(*paper, question, from.topics);
        if (!about)
            continue;
        if (!allowances)
            allowances = part_allowances(*paper);
        const Seconds allowance = question_allowance(question, *allowances);
        const QuestionName name{paper->id(), question.label};
        if (allowance > Seconds(0) && firsts.is_first(name))
            add_to(stock, left_out, name,
                   {{paper, position, about->topic, allowance, std::nullopt, paper_in(to_sit, name)},
                    about->on_topics});
    }
}

void sort_by_topic(std::vector<SetQuestion>& questions, const std::vector<std::string>& topics) {
    std::map<std::string, std::size_t> places;
    for (const std::string& topic : topics)
        places.emplace(topic, places.size());
    std::stable_sort(questions.begin(), questions.end(), [&](const SetQuestion& a, const SetQuestion& b) {
        return places[a.drawable.topic] < places[b.drawable.topic];
    });
}

bool has_no_first(const Paper& paper, const FirstCopies& firsts) {
    return std::none_of(paper.questions().begin(), paper.questions().end(), [&](const Question& question) {
        return firsts.is_first({paper.id(), question.label});
    });
}

constexpr std::int64_t whole_share = 1'000'000;

/// `size` counts seconds, or marks as if they were.
Offer offer_of(const SetQuestion& question, Seconds size) {
    const Marks marks = question.drawable.paper_question().marks;
    return {size, true, whole_share * question.on_topics.count() / marks.count(),
            question.drawable.to_sit.empty() ? 1 : 0};
}

} // namespace

std::set<QuestionName> questions_met(const Candidate& candidate, const std::vector<Script>& desk) {
    std::set<QuestionName> met;
    for (const SittingRecord& record : candidate.sittings) {
        const Paper& paper = *record.paper;
        for (const Question& question : paper.questions())
            if (counts(record, question) || was_tried(record, question))
                met.insert({paper.id(), question.label});
        for (const Reattempt& reattempt : record.reattempts)
            met.insert({paper.id(), reattempt.question});
    }
    for (const Script& script : desk)
        for (const Question& question : script.paper->questions())
            if (std::binary_search(script.positions.begin(), script.positions.end(), question.parts.front()))
                met.insert({script.paper->id(), question.label});
    return met;
}

std::set<QuestionName> questions_waiting(const Candidate& candidate) {
    std::set<QuestionName> waiting;
    for (const SittingRecord& record : candidate.sittings)
        for (const Question& question : record.paper->questions())
            if (waits_as_retry(candidate, record, question))
                waiting.insert({record.paper->id(), question.label});
    return waiting;
}

std::set<QuestionName> questions_of(const std::vector<std::shared_ptr<const Paper>>& papers,
                                    const std::set<std::string>& ids) {
    return FirstCopies({}).firsts_in(papers, ids);
}

QuestionName source_of(const std::vector<Copies>& copies, const QuestionName& name) {
    return FirstCopies(copies).of(name);
}

std::set<std::string> drawn_papers(const std::vector<std::shared_ptr<const Paper>>& papers,
                                   const std::vector<Copies>& copies) {
    std::set<std::string> ids;
    if (copies.empty())
        return ids;
    const FirstCopies firsts(copies);
    for (const auto& paper : papers)
        if (has_no_first(*paper, firsts))
            ids.insert(paper->id());
    return ids;
}

Candidate without_drawn_papers(Candidate candidate, const std::vector<Copies>& copies) {
    const FirstCopies firsts(copies);
    std::vector<SittingRecord>& sittings = candidate.sittings;
    sittings.erase(std::remove_if(sittings.begin(), sittings.end(),
                                  [&](const SittingRecord& one) { return has_no_first(*one.paper, firsts); }),
                   sittings.end());
    return candidate;
}

SetStock set_stock(const std::vector<std::shared_ptr<const Paper>>& papers, const std::vector<Copies>& copies,
                   const SetFrom& from) {
    const FirstCopies firsts(copies);
    const LeftOut left_out(firsts, papers, from);
    const std::map<QuestionName, std::string> to_sit = firsts.papers_with(papers, from.to_sit);
    SetStock stock;
    for (const auto& paper : papers)
        if (is_asked_for(*paper, from))
            add_questions(stock, paper, firsts, left_out, to_sit, from);
    sort_by_topic(stock.questions, from.topics);
    return stock;
}

std::vector<SetQuestion> choose_set(const SetStock& stock, const SetSize& size) {
    if (!size.marks && !size.time)
        return stock.questions;
    std::vector<Offer> offers;
    for (const SetQuestion& question : stock.questions)
        offers.push_back(offer_of(question, size.time
                                                ? question.drawable.allowance
                                                : Seconds(question.drawable.paper_question().marks.count())));
    std::vector<SetQuestion> chosen;
    for (const std::size_t position : fullest(offers, size.time ? *size.time : Seconds(size.marks->count())))
        chosen.push_back(stock.questions[position]);
    return chosen;
}

} // namespace inkturn
