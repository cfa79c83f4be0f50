#include "view/page/run_sheet.hpp"

#include "inkturn/base/time.hpp"
#include "view/page/html.hpp"
#include "view/page/html_table.hpp"
#include "view/page/report_page.hpp"
#include "view/text/lesson.hpp"
#include "view/text/run_sheet.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::string shared_html(const RunSheet& sheet) {
    HtmlTable table{"Allowances by each paper's rule.",
                    {{"question"}, {"marks", true}, {"time", true}, {"candidates"}},
                    {}};
    for (const SharedRetry& shared : sheet.shared)
        table.rows.push_back({question_text(shared.retry),
                              std::to_string(shared.retry.paper_question().marks.count()),
                              length_text(shared.retry.allowance), joined(shared.candidates, ", ")});
    std::string html = sheet.shared.empty() ? "" : to_html(table);
    if (sheet.of_one > 0)
        html += paragraph(count_text(sheet.of_one, sheet.shared.empty() ? "question" : "further question") +
                          (sheet.of_one == 1 ? " waits" : " wait") + " for one of them alone.");
    return html;
}

std::string fresh_html(const RunSheet& sheet) {
    HtmlTable table{"None of those who are coming has sat them, in any copy.",
                    {{"question"}, {"topic"}, {"marks", true}, {"time", true}},
                    {}};
    for (const Drawable& question : sheet.fresh)
        table.rows.push_back({question_text(question), question.topic,
                              std::to_string(question.paper_question().marks.count()),
                              length_text(question.allowance)});
    return to_html(table);
}

std::string bring_html(const RunSheet& sheet) {
    const auto any = [&](const auto& says) {
        return std::any_of(sheet.bring.begin(), sheet.bring.end(),
                           [&](const ToBring& bring) { return says(bring.asked); });
    };
    const bool any_topics = any([](const PlaceAsked& asked) { return !asked.topics.empty(); });
    const bool any_remark = any([](const PlaceAsked& asked) { return !asked.remark.empty(); });
    HtmlTable table{"The question paper and their own script.", {{"candidate"}, {"brings"}}, {}};
    if (any_topics)
        table.columns.push_back({"wants"});
    if (any_remark)
        table.columns.push_back({"says"});
    table.columns.push_back({"here"});
    for (const ToBring& bring : sheet.bring) {
        std::vector<std::string>& row =
            table.rows.emplace_back(std::vector<std::string>{bring.asked.candidate, bring_text(bring)});
        if (any_topics)
            row.push_back(bring.asked.topics.empty() ? "all of it" : topics_text(bring.asked.topics));
        if (any_remark)
            row.push_back(bring.asked.remark);
        row.emplace_back("\u2610");
    }
    return to_html(table);
}

std::vector<ReportSection> sections_of(const RunSheet& sheet) {
    std::vector<ReportSection> sections;
    if (!sheet.shared.empty() || sheet.of_one > 0)
        sections.push_back({"shared",
                            sheet.shared.empty() ? "No retry is shared"
                                                 : count_text(sheet.shared.size(), "question") +
                                                       (sheet.shared.size() == 1 ? " waits" : " wait") +
                                                       " for two or more of those who come",
                            shared_html(sheet)});
    if (!sheet.fresh.empty())
        sections.push_back({"fresh",
                            count_text(sheet.fresh.size(), "question") + " that none of them has seen",
                            fresh_html(sheet)});
    if (!sheet.bring.empty())
        sections.push_back({"bring",
                            count_text(sheet.bring.size(), "candidate") +
                                (sheet.bring.size() == 1 ? " comes" : " come") + ", and what each brings",
                            bring_html(sheet), true});
    return sections;
}

} // namespace

std::string to_html(const RunSheet& sheet) {
    std::vector<std::string> lead = opening_of(sheet);
    const Lesson& lesson = sheet.lesson;
    lead.insert(lead.begin(), day_text(lesson.day) + time_text(lesson.start, lesson.duration) +
                                  (lesson.subject.empty() ? "" : ", " + lesson.subject) + ".");
    if (!sheet.bring.empty())
        lead.emplace_back("This sheet tells what candidates lost: it is for the teacher's hand alone.");
    return report_page("Lesson " + lesson.id + ": " + topics_text(lesson.topics), lead, sections_of(sheet));
}

} // namespace inkturn
