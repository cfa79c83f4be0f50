#include "view/text/run_sheet.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <sstream>

namespace inkturn {
namespace {

using Align = Table::Align;

Seconds time_of(const std::vector<Drawable>& questions) {
    Seconds sum{0};
    for (const Drawable& question : questions)
        sum += question.allowance;
    return sum;
}

std::string first_step(const RunSheet& sheet) {
    if (sheet.shared.empty())
        return "No question on these topics waits as a retry for two who are coming.";
    const SharedRetry& first = sheet.shared.front();
    return "Begin with " + question_text(first.retry) + ": it waits for " +
           std::to_string(first.candidates.size()) + " of the " + std::to_string(sheet.bring.size()) +
           (sheet.confirmed ? " who are coming." : " who were offered a place.");
}

std::string second_step(const RunSheet& sheet) {
    if (sheet.fresh.empty() && !sheet.left_alone.empty())
        return "The questions that none of them has seen are in papers that their plans keep to be sat "
               "whole: " +
               joined({sheet.left_alone.begin(), sheet.left_alone.end()}, ", ") + ".";
    if (sheet.fresh.empty())
        return "No question on file on these topics is unseen by all of them: bring one from elsewhere.";
    return "Then " + std::to_string(sheet.fresh.size()) + " fresh " +
           (sheet.fresh.size() == 1 ? "question" : "questions") + " that none of them has seen, " +
           length_text(time_of(sheet.fresh)) + " by the marks.";
}

std::string shared_text(const RunSheet& sheet) {
    Table table({{"question"},
                 {"marks", Align::right},
                 {"time", Align::right},
                 {"for", Align::right},
                 {"candidates", Align::left_may_be_cut}});
    for (const SharedRetry& shared : sheet.shared)
        table.add_row({question_text(shared.retry),
                       std::to_string(shared.retry.paper_question().marks.count()),
                       length_text(shared.retry.allowance), std::to_string(shared.candidates.size()),
                       joined(shared.candidates, ", ")});
    std::ostringstream text;
    text << table;
    return text.str();
}

std::string fresh_text(const RunSheet& sheet) {
    Table table(
        {{"question"}, {"topic", Align::left_may_be_cut}, {"marks", Align::right}, {"time", Align::right}});
    for (const Drawable& question : sheet.fresh)
        table.add_row({question_text(question), question.topic,
                       std::to_string(question.paper_question().marks.count()),
                       length_text(question.allowance)});
    std::ostringstream text;
    text << table;
    return text.str();
}

std::string bring_table(const RunSheet& sheet) {
    Table table({{"candidate", Align::left_may_be_cut},
                 {"brings", Align::left_may_be_cut},
                 {"wants", Align::left_may_be_cut, true},
                 {"remark", Align::left_may_be_cut, true}});
    for (const ToBring& bring : sheet.bring)
        table.add_row(
            {bring.asked.candidate, bring_text(bring), topics_text(bring.asked.topics), bring.asked.remark});
    std::ostringstream text;
    text << table;
    return text.str();
}

} // namespace

std::vector<std::string> opening_of(const RunSheet& sheet) {
    if (sheet.bring.empty())
        return {"Nobody has a place yet: confirm who is coming, and make the sheet again."};
    std::vector<std::string> texts{first_step(sheet), second_step(sheet)};
    if (!sheet.confirmed)
        texts.emplace_back("Nobody has confirmed yet: this is for those who were offered a place.");
    return texts;
}

std::string question_text(const Retry& retry) {
    return retry.paper->id() + " question " + retry.id.question;
}

std::string question_text(const Drawable& question) {
    return question.paper->id() + " question " + question.paper_question().label;
}

std::string bring_text(const ToBring& bring) {
    std::string text;
    for (const ToBring::OfPaper& of_paper : bring.papers)
        text +=
            (text.empty() ? "" : "; ") + of_paper.paper->id() + " (" + joined(of_paper.questions, ", ") + ")";
    return text.empty() ? "nothing" : text;
}

std::string screen_text(const RunSheet& sheet) {
    std::string text;
    for (const std::string& sentence : opening_of(sheet))
        text += text_line(visible(sentence));
    if (!sheet.shared.empty())
        text += "\nRetries that several share\n" + shared_text(sheet);
    if (sheet.of_one > 0)
        text += count_text(sheet.of_one, sheet.shared.empty() ? "question" : "further question") +
                (sheet.of_one == 1 ? " waits" : " wait") + " for one of them alone.\n";
    if (!sheet.fresh.empty())
        text += "\nFresh questions\n" + fresh_text(sheet);
    if (!sheet.bring.empty())
        text += "\nWhat each should bring: the paper and their own script (questions)\n" + bring_table(sheet);
    return text;
}

} // namespace inkturn
