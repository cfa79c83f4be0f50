// Writes pages for a browser to look at: a candidate's report after a term, one whose texts would break out
// of a page that let them, an empty one; the same three of a class's report; the figures at their fullest;
// sheets of facts, blank, filled, and of texts that would break out; run sheets of lessons and forms to ask
// for a place; sets of questions.
//
//     inkturn_write_reports FOLDER

#include "view/figure/chart.hpp"
#include "view/page/class_report.hpp"
#include "view/page/fact_sheet.hpp"
#include "view/page/html.hpp"
#include "view/page/html_table.hpp"
#include "view/page/question_set.hpp"
#include "view/page/report.hpp"
#include "view/page/request_form.hpp"
#include "view/page/run_sheet.hpp"

#include <fstream>
#include <iostream>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;

const Day today = *read_iso_day("2026-11-25");
const std::string hostile =
    "</title></style></svg><script>alert(1)</script> \"&amp;' ]]> \x1b[31m \xe2\x80\xae K03";

/// One after the other, the same in every run.
class Dice {
  public:
    int up_to(int most) {
        state_ = state_ * 1103515245 + 12345;
        return static_cast<int>((state_ >> 16) % static_cast<unsigned>(most + 1));
    }

  private:
    unsigned state_ = 7;
};

InkBar bar(const std::string& paper, Day day, int max, int in_time, int overtime, int corrected) {
    return {paper, day, Marks(max), Marks(in_time), Marks(overtime), Marks(corrected)};
}

std::vector<GradeBand> bands() {
    return {{"A*", 0.84, 0.90}, {"A", 0.68, 0.77}, {"B", 0.57, 0.65},
            {"C", 0.46, 0.54},  {"D", 0.36, 0.43}, {"E", 0.25, 0.33}};
}

std::vector<InkBar> sittings() {
    return {bar("pure-1", today - Days{63}, 75, 31, 12, 18), bar("pure-2", today - Days{49}, 75, 38, 9, 17),
            bar("mechanics-1", today - Days{35}, 50, 22, 8, 12),
            bar("pure-3", today - Days{20}, 75, 47, 6, 15), bar("pure-4", today - Days{4}, 75, 54, 5, 11)};
}

PaceCurve pace() {
    const std::vector<std::pair<int, int>> left{{0, 0},     {250, 3},   {720, 9},   {1180, 14},
                                                {1900, 22}, {2480, 28}, {3300, 36}, {3960, 44},
                                                {4700, 53}, {5190, 59}, {5700, 66}, {6120, 75}};
    PaceCurve pace{{}, Seconds(5400), Marks(75)};
    for (const auto& [worked, marks] : left)
        pace.points.push_back({Seconds(worked), Marks(marks)});
    return pace;
}

ReportTopic topic(const std::string& name, double share, double low, double high, std::size_t parts,
                  const std::string& cost, const std::string& advice) {
    return {TopicShare{name, share, low, high, parts}, cost, advice};
}

ReportTopics topics() {
    return {{topic("integration by substitution", 0.34, 0.21, 0.48, 7, "6.4", "relearn"),
             topic("vectors", 0.45, 0.27, 0.63, 4, "5.2", "relearn"),
             topic("trigonometric identities", 0.55, 0.43, 0.67, 12, "4.1", "pace"),
             topic("moments", 0.63, 0.42, 0.82, 3, "2.8", "probably practise"),
             topic("differentiation", 0.78, 0.69, 0.86, 19, "2.2", "probably care"),
             topic("straight lines and circles", 0.91, 0.84, 0.96, 16, "0.9", "firm"),
             topic("proof", 0.86, 0.70, 0.97, 2, "0.5", "probably firm")},
            24};
}

HtmlTable standing(const std::string& name) {
    return {"Unaided marks of the latest sittings under each boundary set",
            {{"boundary set"}, {"marks", true}, {"grade"}, {"clear by", true}, {"short of next by", true}},
            {{name + ", June 2023", "59 of 75", "A", "4", "6"},
             {name + ", June 2024", "59 of 75", "A", "1", "8"},
             {name + ", June 2025", "59 of 75", "B", "10", "1"}}};
}

std::vector<Report::DayAhead> days(const std::string& item) {
    std::vector<Report::DayAhead> days;
    for (int i = 0; i < 14; ++i) {
        Report::DayAhead day{today + Days{i}, Seconds(0), Seconds(i % 7 == 4 ? 0 : 3600), {}};
        for (int retry = 0; retry < (i * 5 + 1) % 4 && day.available > Seconds(0); ++retry) {
            const int marks = 4 + (i + 3 * retry) % 8;
            day.planned += Seconds(72 * marks);
            day.items.push_back(item + ", question " + std::to_string(1 + i) + ": " + std::to_string(marks) +
                                " marks, " + length_text(Seconds(72 * marks)));
        }
        days.push_back(day);
    }
    return days;
}

Report full() {
    return {"K01, Saltmarsh Evening College",
            "",
            today,
            {"Start with 4q7: its window is the first to close, on 28 Nov."},
            sittings(),
            bands(),
            Report::LastPace{"pure-4", today - Days{4}, pace()},
            topics(),
            standing("Saltmarsh pure"),
            {},
            {{1, 14, 9}, {2, 5, 3}, {3, 2, 2}},
            days("pure-4")};
}

Report of_hostile_texts() {
    Report report = full();
    report.candidate = hostile;
    report.next = {hostile};
    for (InkBar& one : report.sittings)
        one.paper = hostile;
    for (GradeBand& band : report.bands)
        band.grade = "<b>&\"" + band.grade + "</b>";
    report.pace->paper = hostile;
    for (ReportTopic& one : report.topics.shown)
        one = topic(hostile + std::string(60, 'm'), one.share.share, one.share.low, one.share.high, 3,
                    hostile, hostile);
    report.standing = standing(hostile);
    report.standing.caption = hostile;
    report.days = days(hostile);
    return report;
}

/// Of 24 candidates, the later parts the harder.
std::vector<PartEarned> parts(int count) {
    Dice dice;
    std::vector<PartEarned> parts;
    for (int i = 0; i < count; ++i) {
        const int max = 1 + dice.up_to(7);
        const int most = 24 * max * (count - i) / count;
        parts.push_back({std::to_string(1 + i / 3) + std::string(1, static_cast<char>('a' + i % 3)),
                         Marks(max), Marks(most * (60 + dice.up_to(40)) / 100)});
    }
    return parts;
}

const std::vector<std::string> part_topics{"surds",
                                           "quadratics",
                                           "binomial expansion",
                                           "vectors",
                                           "trigonometric identities",
                                           "integration by substitution",
                                           "moments"};

/// Of so many parts, the topics as given or one for all.
std::shared_ptr<const Paper> class_paper(int count, const std::string& title, const std::string& topic = "") {
    Dice dice;
    std::vector<Part> parts;
    for (int i = 0; i < count; ++i)
        parts.push_back(
            {std::to_string(1 + i / 2) + std::string(1, static_cast<char>('a' + i % 2)),
             Marks(2 + dice.up_to(6)),
             topic.empty() ? part_topics[static_cast<std::size_t>(i) % part_topics.size()] : topic, ""});
    return std::make_shared<const Paper>(PaperHead{"pure-1", title, "pure", std::nullopt, RetryBy::question},
                                         parts);
}

/// The later parts the harder; some candidates run out of time, on one of two days.
Side class_side(const std::shared_ptr<const Paper>& paper) {
    Dice dice;
    Side side{paper, {}};
    const int count = static_cast<int>(paper->parts().size());
    for (int candidate = 0; candidate < 24; ++candidate) {
        const int able = 30 + dice.up_to(70);
        const int reached = count - (candidate % 3 == 0 ? dice.up_to(3) : 0);
        std::vector<PartMarks> marks;
        for (int i = 0; i < count; ++i) {
            const Part& part = paper->part(static_cast<std::size_t>(i));
            const int most = part.max.count() * able * (2 * count - i) / (2 * count * 100);
            const int earned = dice.up_to(most + 1) < 1 ? most / 2 : most;
            marks.push_back(i >= reached ? PartMarks{}
                            : i + 2 >= reached
                                ? PartMarks({Marks(earned / 2), Marks(earned - earned / 2)}, part.max)
                                : PartMarks({Marks(earned)}, part.max));
        }
        side.sittings.push_back(
            {"K" + std::to_string(candidate), today - Days{candidate < 20 ? 9 : 2}, marks});
    }
    return side;
}

std::vector<BoundarySet> class_sets(const Paper& paper, int count, const std::string& name) {
    std::vector<BoundarySet> sets;
    for (int i = 0; i < count; ++i) {
        BoundarySet set{name + std::to_string(2023 + i), "pure", paper.marks(), {}};
        for (int grade = 0; grade < 5; ++grade)
            set.grades.push_back({std::string(1, static_cast<char>('A' + grade)),
                                  Marks(paper.marks().count() * (78 - i - 11 * grade) / 100)});
        sets.push_back(std::move(set));
    }
    return sets;
}

/// Of 14 parts.
ClassReport of_class() {
    ClassReport report;
    report.side = class_side(class_paper(14, "Pure mathematics, paper 1"));
    report.of_class = "Tuesday evening";
    report.day = today;
    report.not_sat = ClassReport::NotSat{2, 1};
    report.sets = class_sets(*report.side.paper, 3, "Saltmarsh ");
    report.topics = topics();
    report.counts =
        "Each candidate's first sitting counts, or the first of the whole paper if there is one, by "
        "unaided marks.";
    return report;
}

ClassReport of_class_with_hostile_texts() {
    const std::string printable = "</style></svg><script>alert(1)</script> \"&amp;' K";
    ClassReport report = of_class();
    report.side = class_side(class_paper(60, printable, printable));
    report.of_class = report.counts = hostile;
    report.sets = class_sets(*report.side.paper, 9, printable);
    for (BoundarySet& set : report.sets)
        set.grades.back().grade = "<b>&\"E</b>";
    report.topics = of_hostile_texts().topics;
    return report;
}

/// As many bars, rows and bands as there may be and more, of every width, and totals of a class.
std::vector<Chart> fullest() {
    Dice dice;
    std::vector<InkBar> bars;
    for (int i = 0; i < 20; ++i) {
        const int in_time = dice.up_to(60);
        const int overtime = dice.up_to(100 - in_time);
        bars.push_back(
            bar("paper-" + std::string(static_cast<std::size_t>(dice.up_to(16)), 'w') + std::to_string(i),
                today + Days{i - 90}, 100, in_time, overtime, dice.up_to(100 - in_time - overtime)));
    }
    std::vector<GradeBand> close;
    for (int grade = 9; grade > 0; --grade)
        close.push_back({std::to_string(grade), 0.30 + 0.03 * grade, 0.34 + 0.03 * grade});
    std::vector<TopicShare> shares;
    for (int i = 0; i < 45; ++i) {
        const double share = dice.up_to(100) / 100.0;
        shares.push_back({"topic" + std::string(static_cast<std::size_t>(dice.up_to(6)), ' ') +
                              std::string(static_cast<std::size_t>(dice.up_to(25)), 'm') + " " +
                              std::to_string(i),
                          share, share * 0.7, share * 0.7 + 0.3, static_cast<std::size_t>(dice.up_to(999))});
    }
    TotalsSpread spread{{}, Marks(100), bands()};
    for (int i = 0; i < 120; ++i)
        spread.totals.push_back(Marks(dice.up_to(50) + dice.up_to(50)));
    std::vector<TurnCount> turns;
    for (int turn = 1; turn <= 12; ++turn)
        turns.push_back({turn, static_cast<std::size_t>(4000 / turn), static_cast<std::size_t>(3000 / turn)});
    return {ink_chart("inks", bars, close),
            ink_chart("two", {bars[0], bars[1]}, {}),
            pace_chart("long",
                       {{{Seconds(0), Marks(0)}, {Seconds(40000), Marks(480)}}, Seconds(36000), Marks(500)}),
            pace_chart("short", {{{Seconds(0), Marks(0)}, {Seconds(50), Marks(1)}}, Seconds(72), Marks(1)}),
            topics_chart("many", shares),
            parts_chart("parts", parts(max_part_rows), 24),
            turns_chart("turns", turns),
            spread_chart("spread", spread),
            spread_chart("small", {{Marks(3), Marks(3), Marks(7)}, Marks(7), close})};
}

std::string page_of(const std::vector<Chart>& charts) {
    HtmlPage page{"Figures",
                  std::string(table_style()) + std::string(chart_style()) +
                      "h1 { margin: 0; }\nbody { margin: 16px; overflow-wrap: anywhere; }\n"
                      "@page { size: A4; margin: 18mm 15mm; }\n",
                  "<main>\n<h1>Figures</h1>\n"};
    for (const Chart& chart : charts)
        page.body += to_html(chart);
    page.body += "</main>\n";
    return to_html(page);
}

/// As many facts as a sheet holds, under two topics, with one of the longest answers.
CandidateSheet facts() {
    CandidateSheet sheet{"K07", {}, {}};
    std::vector<FactId> ids;
    for (int id = 1; id <= static_cast<int>(Sheet::max_rows); ++id) {
        ids.push_back(FactId{id});
        sheet.facts.push_back({FactId{id}, "law of indices " + std::to_string(id), "what it says",
                               id < 12 ? "indices" : "indices that are fractions", "pure"});
    }
    sheet.facts[4].answer = "what it says, " + std::string(280, 'x');
    sheet.sheet = sheet_of(ids, today);
    sheet.sheet.id = SheetId{7};
    return sheet;
}

CandidateSheet filled_facts() {
    CandidateSheet sheet = facts();
    sheet.sheet.log = Sheet::Log{today, {2, 5, 20}};
    return sheet;
}

CandidateSheet facts_of_hostile_texts() {
    CandidateSheet sheet = facts();
    sheet.candidate = hostile;
    for (Fact& fact : sheet.facts)
        fact = {fact.id, hostile, hostile, hostile, hostile};
    return sheet;
}

std::shared_ptr<const Paper> paper_on_vectors() {
    return std::make_shared<const Paper>(PaperHead{"pure-1", "", "pure", {}, RetryBy::question},
                                         std::vector<Part>{{"1", Marks(5), "vectors", ""},
                                                           {"2", Marks(8), "vectors", ""},
                                                           {"3", Marks(9), "vectors", ""}});
}

/// Of a lesson for so many, each with a remark.
RunSheet run_sheet_for(int candidates, const std::string& text) {
    const auto paper = paper_on_vectors();
    RunSheet sheet{
        {"help-1", today, std::chrono::hours{16}, Seconds(3600), "pure", {text}, 12}, {}, 2, {}, {}, {}};
    std::vector<std::string> codes;
    for (int i = 1; i <= candidates; ++i) {
        codes.push_back(text == hostile ? hostile : "K" + std::to_string(10 + i));
        sheet.bring.push_back(
            {{codes.back(), Moment{today}, {}, text, PlaceState::confirmed}, {{paper, {"1", "2"}}}});
    }
    for (std::size_t question = 0; question < 2; ++question) {
        Retry retry;
        retry.paper = paper;
        retry.question = question;
        retry.id.question = paper->questions()[question].label;
        retry.allowance = Seconds(600);
        sheet.shared.push_back({retry, codes});
    }
    sheet.fresh = {{paper, 2, text, Seconds(648), std::nullopt}};
    return sheet;
}

RequestForm request_form_for(int candidates, const std::string& text) {
    RequestForm form{
        text, {}, {text, "the binomial expansion", "exponentials and logarithms"}, {today, today + Days{3}}};
    for (int i = 1; i <= candidates; ++i)
        form.candidates.push_back(text == hostile ? hostile : "K" + std::to_string(10 + i));
    return form;
}

/// A set of three questions without pictures, whose words are this text.
QuestionSet set_of(const std::string& text, PrintSize size = PrintSize::usual) {
    QuestionSet set;
    set.size = size;
    set.paper =
        std::make_shared<const Paper>(PaperHead{"set-vectors-1", text == hostile ? "" : text, "pure", {}},
                                      std::vector<Part>{{"1a", Marks(3), "vectors", ""},
                                                        {"1b", Marks(4), "vectors", ""},
                                                        {"2", Marks(9), "", ""},
                                                        {"3", Marks(6), "", ""}});
    for (const char* const question : {"7", "2", "11"})
        set.questions.push_back({{"pure-1", question}, text, {}, {}});
    set.readers = "candidate " + (text == hostile ? hostile : "K07");
    set.extra = ExtraTime(25);
    return set;
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "inkturn_write_reports: name the folder to write to\n";
        return 2;
    }
    const std::string folder = argv[1];
    Report empty;
    empty.candidate = "K02";
    empty.day = today;
    ClassReport nobody;
    nobody.side.paper = class_paper(14, "");
    nobody.day = today;
    const std::pair<const char*, std::string> samples[] = {
        {"report", to_html(full())},
        {"report-hostile", to_html(of_hostile_texts())},
        {"report-empty", to_html(empty)},
        {"class-report", to_html(of_class())},
        {"class-report-hostile", to_html(of_class_with_hostile_texts())},
        {"class-report-empty", to_html(nobody)},
        {"figures", page_of(fullest())},
        {"run-sheet", to_html(run_sheet_for(12, "vectors"))},
        {"run-sheet-hostile", to_html(run_sheet_for(3, hostile))},
        {"request-form", to_html(request_form_for(8, "vectors"))},
        {"request-form-hostile", to_html(request_form_for(2, hostile))},
        {"set", to_html(set_of("Set on vectors"))},
        {"set-hostile", to_html(set_of(hostile))},
        {"set-large", to_html(set_of("Set on vectors", PrintSize::large))},
        {"facts", to_html(facts(), false)},
        {"facts-filled", to_html(filled_facts(), true)},
        {"facts-hostile", to_html(facts_of_hostile_texts(), false)}};
    for (const auto& [name, page] : samples) {
        std::ofstream out(folder + "/" + name + ".html", std::ios::binary);
        out << page << std::flush;
        if (!out) {
            std::cerr << "inkturn_write_reports: can't write " << folder << "/" << name << ".html\n";
            return 1;
        }
    }
    return 0;
}
