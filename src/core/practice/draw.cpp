#include "inkturn/practice/draw.hpp"

#include "core/practice/first_copies.hpp"
#include "core/practice/knapsack.hpp"
#include "core/practice/question_topic.hpp"
#include "core/practice/was_tried.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

/// What the candidate did with a question, in whichever copy.
struct Met {
    std::optional<Day> last;
    bool waits = false;
    bool on_desk = false;
};

/// What the candidate did with all questions.
class History {
  public:
    History(const std::vector<Copies>& copies, const Candidate& candidate, const std::vector<Script>& desk)
        : firsts_(copies) {
        for (const SittingRecord& record : candidate.sittings)
            add(candidate, record);
        for (const Script& script : desk)
            add(script);
    }

    Met of(const QuestionName& name) const {
        const auto found = met_.find(firsts_.of(name));
        return found == met_.end() ? Met{} : found->second;
    }

    const FirstCopies& firsts() const { return firsts_; }

  private:
    Met& met(const Paper& paper, const std::string& question) {
        return met_[firsts_.of({paper.id(), question})];
    }

    void add(const Candidate& candidate, const SittingRecord& record) {
        const Paper& paper = *record.paper;
        for (const Question& question : paper.questions()) {
            if (!counts(record, question) && !was_tried(record, question))
                continue;
            Met& question_met = met(paper, question.label);
            question_met.last = std::max(question_met.last, std::optional(record.sitting.day));
            question_met.waits |= waits_as_retry(candidate, record, question);
        }
        for (const Reattempt& reattempt : record.reattempts) {
            Met& question_met = met(paper, reattempt.question);
            question_met.last = std::max(question_met.last, std::optional(reattempt.day));
        }
    }

    void add(const Script& script) {
        for (const Question& question : script.paper->questions())
            if (std::binary_search(script.positions.begin(), script.positions.end(), question.parts.front()))
                met(*script.paper, question.label).on_desk = true;
    }

    FirstCopies firsts_;
    std::map<QuestionName, Met> met_; ///< by the first of its copies
};

void add_question(const History& history, Drawable question, const DrawFrom& from, Day today, Stock& stock) {
    const Met met = history.of({question.paper->id(), question.paper_question().label});
    if (met.waits)
        ++stock.waiting;
    else if (met.on_desk)
        ++stock.on_desk;
    else if (from.unseen && met.last)
        ++stock.seen;
    else if (met.last && today - *met.last < Stock::min_rest)
        ++stock.recent;
    else {
        question.got_on = met.last;
        stock.questions.push_back(std::move(question));
    }
}

/// What is known of topics: the marks that they cost in a paper.
class Costs {
  public:
    explicit Costs(const std::vector<TopicDiagnosis>& known) {
        for (const TopicDiagnosis& topic : known)
            if (topic.outlook)
                by_topic_[topic.topic] = std::max(by_topic_[topic.topic], topic.outlook->marks_a_paper);
    }

    /// A topic of which nothing is known is weaker than all others, the empty topic stronger.
    bool is_weaker(const std::string& a, const std::string& b) const {
        if (a.empty() || b.empty())
            return !a.empty() && b.empty();
        return of(a) > of(b);
    }

  private:
    double of(const std::string& topic) const {
        const auto found = by_topic_.find(topic);
        return found == by_topic_.end() ? std::numeric_limits<double>::infinity() : found->second;
    }

    std::map<std::string, double> by_topic_;
};

struct Rank {
    std::size_t position;  ///< among the topics, weakest first
    std::int64_t weakness; ///< from 1; alike for equal costs
};

std::map<std::string, Rank> ranks_of(const Stock& stock, const std::vector<TopicDiagnosis>& known) {
    std::vector<std::string> topics;
    for (const Drawable& question : stock.questions)
        topics.push_back(question.topic);
    topics = weakest_first(std::move(topics), known);
    const Costs costs(known);
    std::map<std::string, Rank> ranks;
    std::int64_t weakness = 1;
    for (std::size_t i = topics.size(); i-- > 0;) {
        if (i + 1 < topics.size() && costs.is_weaker(topics[i], topics[i + 1]))
            ++weakness;
        ranks.emplace(topics[i], Rank{i, weakness});
    }
    return ranks;
}

/// Days since it was got; of one never sat, whether it is in no paper that is to be sat.
std::int64_t preference_for(const Drawable& question, Day today) {
    if (question.got_on)
        return (today - *question.got_on).count();
    return question.to_sit.empty() ? 1 : 0;
}

std::set<std::string> topics_in(const Paper& paper, const Question& question) {
    std::set<std::string> topics;
    for (const std::size_t part : question.parts)
        topics.insert(paper.parts()[part].topic);
    return topics;
}

bool is_by_the_rule(const Drawable& question) {
    return question.allowance == question.paper_question().marks.count() * time_per_mark;
}

/// A part alone, where its paper retries by part, becomes the whole question.
std::string drawn_label(const Drawable& question, const Part& part, std::size_t number) {
    const std::string sub_parts =
        question.paper->retry_by() == RetryBy::part ? "" : part.label.substr(question_of(part.label).size());
    return std::to_string(number) + sub_parts;
}

} // namespace

Stock drawable(const std::vector<std::shared_ptr<const Paper>>& papers, const std::vector<Copies>& copies,
               const Candidate& candidate, const std::vector<Script>& desk, const DrawFrom& from, Day today) {
    const History history(copies, candidate, desk);
    const std::set<QuestionName> held_back = history.firsts().firsts_in(papers, from.kept_unseen);
    const std::map<QuestionName, std::string> to_sit = history.firsts().papers_with(papers, from.to_sit);
    Stock stock;
    for (const auto& paper : papers) {
        if (!from.subject.empty() && paper->subject() != from.subject)
            continue;
        const std::vector<Seconds> allowances = part_allowances(*paper);
        for (std::size_t position = 0; position < paper->questions().size(); ++position) {
            const Question& question = paper->questions()[position];
            const Seconds allowance = question_allowance(question, allowances);
            const auto topic = topic_of(*paper, question, from.topics);
            const QuestionName name{paper->id(), question.label};
            if (!topic || allowance <= Seconds(0) || !history.firsts().is_first(name))
                continue;
            if (held_back.count(name) > 0)
                ++stock.kept_unseen;
            else
                add_question(history, {paper, position, topic->topic, allowance, {}, paper_in(to_sit, name)},
                             from, today, stock);
        }
    }
    return stock;
}

std::vector<UnseenPaper> unseen_papers(const std::vector<std::shared_ptr<const Paper>>& papers,
                                       const std::set<std::string>& drawn, const std::vector<Copies>& copies,
                                       const Candidate& candidate, const std::vector<Script>& desk) {
    const History history(copies, candidate, desk);
    const auto is_met = [&](const Paper& paper, const Question& question) {
        const Met met = history.of({paper.id(), question.label});
        return met.last || met.on_desk;
    };
    std::vector<UnseenPaper> unseen;
    for (const auto& paper : papers) {
        const std::vector<Question>& questions = paper->questions();
        if (drawn.count(paper->id()) == 0 ||
            std::any_of(questions.begin(), questions.end(),
                        [&](const auto& one) { return is_met(*paper, one); }))
            continue;
        UnseenPaper& one = unseen.emplace_back();
        one.id = paper->id();
        one.subject = paper->subject();
        for (const Question& question : questions)
            one.topics.push_back(topics_in(*paper, question));
        one.allowance = allowance(*paper, extra_time_ahead(candidate));
    }
    return unseen;
}

QuestionsMet questions_met_in_copies(const std::vector<Copies>& copies,
                                     const std::map<std::string, std::optional<Day>>& drawn_on,
                                     const Candidate& candidate, const std::vector<Script>& desk) {
    QuestionsMet met;
    if (copies.empty())
        return met;
    const History history(copies, candidate, desk);
    const auto is_since = [&](const Met& question, const std::string& paper) {
        const auto drawn = drawn_on.find(paper);
        return drawn == drawn_on.end() ||
               (drawn->second && (question.on_desk || *question.last >= *drawn->second));
    };
    for (const Copies& same : copies) {
        const Met question = history.of(same.front());
        if (question.last || question.on_desk)
            for (const QuestionName& copy : same)
                if (is_since(question, copy.paper))
                    ++met[copy.paper];
    }
    return met;
}

std::vector<UnseenQuestion> unseen_questions(const std::vector<std::shared_ptr<const Paper>>& papers,
                                             const std::vector<Copies>& copies, const Candidate& candidate,
                                             const std::vector<Script>& desk,
                                             const std::set<std::string>& kept_unseen, Day today) {
    const int percent = 100 + extra_time_ahead(candidate).percent();
    std::vector<UnseenQuestion> unseen;
    for (const Drawable& question :
         drawable(papers, copies, candidate, desk, {{}, "", true, {}, kept_unseen}, today).questions) {
        for (const std::string& topic : topics_in(*question.paper, question.paper_question()))
            if (!topic.empty())
                unseen.push_back(
                    {question.paper->subject(), topic, (question.allowance * percent + Seconds(99)) / 100});
    }
    return unseen;
}

std::vector<std::string> weakest_first(std::vector<std::string> topics,
                                       const std::vector<TopicDiagnosis>& known) {
    std::sort(topics.begin(), topics.end());
    topics.erase(std::unique(topics.begin(), topics.end()), topics.end());
    const Costs costs(known);
    std::stable_sort(topics.begin(), topics.end(),
                     [&](const std::string& a, const std::string& b) { return costs.is_weaker(a, b); });
    return topics;
}

std::vector<Drawable> draw(const Stock& stock, const std::vector<TopicDiagnosis>& known, Seconds time,
                           Day today) {
    if (time < Seconds(0) || time > std::chrono::hours(24))
        throw Error("the time to fill must be at most a day", Error::Kind::misused);
    const auto has_allowance = [](const Drawable& question) { return question.allowance > Seconds(0); };
    if (!std::all_of(stock.questions.begin(), stock.questions.end(), has_allowance))
        throw Error("a question that may be drawn needs an allowance", Error::Kind::misused);
    const auto ranks = ranks_of(stock, known);
    std::vector<Offer> offers;
    for (const Drawable& question : stock.questions) {
        offers.push_back({question.allowance, !question.got_on, ranks.at(question.topic).weakness,
                          preference_for(question, today)});
    }
    std::vector<Drawable> drawn;
    for (const std::size_t position : fullest(offers, time))
        drawn.push_back(stock.questions[position]);
    std::stable_sort(drawn.begin(), drawn.end(), [&](const Drawable& a, const Drawable& b) {
        return ranks.at(a.topic).position < ranks.at(b.topic).position;
    });
    return drawn;
}

std::vector<Drawable> draw_questions(const Stock& stock, const std::vector<TopicDiagnosis>& known,
                                     std::size_t count) {
    const auto ranks = ranks_of(stock, known);
    std::vector<std::vector<Drawable>> by_topic(ranks.size());
    for (const Drawable& question : stock.questions)
        by_topic[ranks.at(question.topic).position].push_back(question);
    for (std::vector<Drawable>& of_topic : by_topic)
        std::stable_sort(of_topic.begin(), of_topic.end(), [](const Drawable& a, const Drawable& b) {
            return std::tuple(a.got_on.has_value(), !a.to_sit.empty()) <
                   std::tuple(b.got_on.has_value(), !b.to_sit.empty());
        });
    std::vector<Drawable> drawn;
    for (std::size_t round = 0; drawn.size() < std::min(count, stock.questions.size()); ++round)
        for (const std::vector<Drawable>& of_topic : by_topic)
            if (round < of_topic.size() && drawn.size() < count)
                drawn.push_back(of_topic[round]);
    return drawn;
}

Stock shared_stock(const std::vector<Stock>& stocks) {
    Stock shared;
    if (stocks.empty())
        return shared;
    for (const Drawable& question : stocks.front().questions) {
        const bool in_all = std::all_of(stocks.begin(), stocks.end(), [&](const Stock& stock) {
            return std::any_of(stock.questions.begin(), stock.questions.end(), [&](const Drawable& other) {
                return other.paper->id() == question.paper->id() && other.question == question.question;
            });
        });
        if (in_all)
            shared.questions.push_back(question);
    }
    return shared;
}

std::optional<std::string> paper_with(const std::vector<Drawable>& questions,
                                      const std::vector<std::shared_ptr<const Paper>>& papers,
                                      const std::vector<Copies>& copies, const Candidate& candidate) {
    const History history(copies, candidate, {});
    std::set<QuestionName> request;
    for (const Drawable& question : questions)
        request.insert(history.firsts().of({question.paper->id(), question.paper_question().label}));
    for (const auto& paper : papers) {
        std::set<QuestionName> held;
        for (const Question& question : paper->questions())
            held.insert(history.firsts().of({paper->id(), question.label}));
        if (held == request && !was_sat(candidate, paper->id()))
            return paper->id();
    }
    return std::nullopt;
}

Seconds without_extra(Seconds time, ExtraTime extra) {
    return time * 100 / (100 + extra.percent());
}

Paper drawn_paper(PaperHead head, const std::vector<Drawable>& questions) {
    std::vector<Part> parts;
    Seconds sum{0};
    std::size_t number = 0;
    const bool by_the_rule = std::all_of(questions.begin(), questions.end(), is_by_the_rule);
    for (const Drawable& question : questions) {
        ++number;
        sum += question.allowance;
        const std::vector<Seconds> allowances = part_allowances(*question.paper);
        for (const std::size_t position : question.paper_question().parts) {
            Part part = question.paper->parts()[position];
            part.label = drawn_label(question, part, number);
            part.choice.reset(); // all that is drawn counts
            if (!part.got_at)
                part.got_at = question.paper->got_at();
            if (!by_the_rule)
                part.allowance = std::max(allowances[position], Seconds(1));
            parts.push_back(std::move(part));
        }
    }
    if (parts.size() > Paper::max_parts)
        throw Error("the questions that fill this time have " + std::to_string(parts.size()) +
                    " parts, and a paper has at most " + std::to_string(Paper::max_parts) + ": ask for less");
    head.retry_by = RetryBy::question;
    head.duration.reset();
    if (!by_the_rule)
        head.duration = sum;
    return Paper(std::move(head), std::move(parts));
}

} // namespace inkturn
