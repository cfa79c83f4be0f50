#include "inkturn/lesson/run_sheet.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace inkturn {
namespace {

bool is_on(const Lesson& lesson, const Retry& retry) {
    const std::vector<std::size_t>& parts = retry.paper_question().parts;
    return retry.paper->subject() == lesson.subject &&
           std::any_of(parts.begin(), parts.end(), [&](std::size_t part) {
               return std::binary_search(lesson.topics.begin(), lesson.topics.end(),
                                         retry.paper->parts()[part].topic);
           });
}

/// The first of a question's copies; itself where there are none.
QuestionName first_copy(const std::vector<Copies>& copies, const QuestionName& name) {
    for (const Copies& same : copies)
        if (std::find(same.begin(), same.end(), name) != same.end())
            return same.front();
    return name;
}

ToBring to_bring(const Lesson& lesson, const std::string& code, const std::vector<Retry>& retries) {
    const PlaceAsked* asked = find_asked(lesson, code);
    std::map<std::string, ToBring::OfPaper> papers;
    for (const Retry& retry : retries) {
        ToBring::OfPaper& of_paper = papers[retry.paper->id()];
        of_paper.paper = retry.paper;
        of_paper.questions.push_back(retry.id.question);
    }
    ToBring bring{asked ? *asked : PlaceAsked{code, {}, {}, "", PlaceState::asked}, {}};
    for (auto& [id, of_paper] : papers) {
        std::sort(of_paper.questions.begin(), of_paper.questions.end(),
                  [&paper = *of_paper.paper](const std::string& a, const std::string& b) {
                      return paper.find_question(a) < paper.find_question(b);
                  });
        bring.papers.push_back(std::move(of_paper));
    }
    return bring;
}

void add_fresh_questions(RunSheet& sheet, const std::vector<WhoComes>& come,
                         const std::vector<std::shared_ptr<const Paper>>& papers,
                         const std::vector<Copies>& copies, const std::set<std::string>& kept_unseen,
                         Day today) {
    std::set<std::string> to_sit;
    for (const WhoComes& one : come)
        to_sit.insert(one.to_sit.begin(), one.to_sit.end());
    const DrawFrom from{sheet.lesson.topics, sheet.lesson.subject, true, to_sit, kept_unseen};
    std::vector<Stock> stocks;
    for (const WhoComes& one : come)
        stocks.push_back(drawable(papers, copies, one.candidate, one.desk, from, today));
    Stock shared = shared_stock(stocks);
    Stock free;
    for (Drawable& question : shared.questions) {
        if (!question.to_sit.empty())
            sheet.left_alone.insert(question.to_sit);
        else
            free.questions.push_back(std::move(question));
    }
    sheet.fresh = draw_questions(free, {}, RunSheet::max_fresh);
}

} // namespace

std::vector<std::string> on_run_sheet(const Lesson& lesson) {
    std::vector<std::string> codes = those_who_come(lesson);
    return codes.empty() ? in_state(lesson, PlaceState::offered) : codes;
}

RunSheet run_sheet(const Lesson& lesson, const std::vector<WhoComes>& come,
                   const std::vector<std::shared_ptr<const Paper>>& papers, const std::vector<Copies>& copies,
                   const std::set<std::string>& kept_unseen, Day today) {
    RunSheet sheet{lesson, {}, 0, {}, {}, {}, !those_who_come(lesson).empty()};
    std::map<QuestionName, SharedRetry> by_question;
    for (const WhoComes& one : come) {
        std::vector<Retry> retries = retries_to_place(one.candidate, today);
        retries.erase(std::remove_if(retries.begin(), retries.end(),
                                     [&](const Retry& retry) { return !is_on(lesson, retry); }),
                      retries.end());
        for (const Retry& retry : retries)
            by_question
                .try_emplace(first_copy(copies, {retry.paper->id(), retry.id.question}),
                             SharedRetry{retry, {}})
                .first->second.candidates.push_back(one.candidate.code);
        sheet.bring.push_back(to_bring(lesson, one.candidate.code, retries));
    }
    for (auto& [name, shared] : by_question) {
        if (shared.candidates.size() > 1)
            sheet.shared.push_back(std::move(shared));
        else
            ++sheet.of_one;
    }
    std::stable_sort(
        sheet.shared.begin(), sheet.shared.end(),
        [](const SharedRetry& a, const SharedRetry& b) { return a.candidates.size() > b.candidates.size(); });
    add_fresh_questions(sheet, come, papers, copies, kept_unseen, today);
    return sheet;
}

} // namespace inkturn
