#include "inkturn/plan/sittings_ahead.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Papers = std::vector<std::shared_ptr<const Paper>>;

SittingsAhead ahead_of(const Candidate& candidate, const Papers& on_file, Day today = day(0),
                       double share = 0.35) {
    return sittings_ahead(candidate, {on_file, {}, {share, ShareOf::usual}}, today);
}

std::string names_of(const SittingsAhead& ahead) {
    std::string names;
    for (const PaperToSit& paper : ahead.papers)
        names += (names.empty() ? "" : " ") + name_of(paper);
    return names;
}

std::string text_of(DaySpan span) {
    return std::to_string((span.first - day(0)).count()) + "-" + std::to_string((span.last - day(0)).count());
}

/// Where a paper falls best, then the days that it may take, from the Monday on.
std::string days_of(const PaperToSit& paper) {
    std::string text = text_of(*paper.piece.near) + ":";
    for (const DaySpan span : paper.piece.spans)
        text += " " + text_of(span);
    return text;
}

std::string subjects_of(const SittingsAhead& ahead) {
    std::string text;
    for (const SubjectAhead& subject : ahead.subjects)
        text += subject.subject + ":" + std::to_string(subject.papers) + " ";
    return text;
}

std::vector<Seconds> seconds(const std::vector<int>& counts) {
    std::vector<Seconds> all;
    for (const int count : counts)
        all.emplace_back(count);
    return all;
}

/// So many papers wished that none is on file for.
SittingsAhead wished(int count, const Papers& on_file, ExtraTime extra = {}, double share = 0.35) {
    Candidate candidate;
    candidate.wishes.papers["pure"] = {count, day(0)};
    if (extra.percent() > 0) {
        sit(candidate, paper("old", "mechanics"), day(-1), 5);
        candidate.sittings[0].sitting.extra_time = extra;
    }
    return ahead_of(candidate, on_file, day(0), share);
}

} // namespace

TEST_CASE("papers come in the order of their ids, with numbers as numbers") {
    Papers on_file;
    for (const char* id :
         {"p10", "p9-10", "p2b", "p21", "p2", "a", "pa", "p12", "p02", "p9-9", "p", "p0-2", "p0", "p00"})
        on_file.push_back(paper(id, "pure"));
    CHECK(names_of(ahead_of({}, on_file)) == "a p p0 p00 p0-2 p02 p2 p2b p9-9 p9-10 p10 p12 p21 pa");
}

TEST_CASE("a paper that is not on file has the length and the questions of the middle one of the subject's") {
    const Papers three{paper("p1", "pure", 6), paper("p2", "pure", 2), paper("p3", "pure", 4),
                       paper("m1", "mechanics", 1)};
    const PaperToSit middle = wished(4, three, {}, 0.5).papers.back();
    CHECK(name_of(middle) == "pure paper 4");
    CHECK(middle.allowance == Seconds(4 * 10 * 72));
    CHECK(middle.piece.expected.retries == seconds({720, 720}));
    const PaperToSit longer = wished(3, {three[0], three[1]}, {}, 0.5).papers.back();
    CHECK(longer.allowance == Seconds(6 * 10 * 72));
    CHECK(longer.piece.expected.retries.size() == 3);
}

TEST_CASE("what a paper that is not on file is like does not go by drawn papers") {
    Candidate candidate;
    candidate.wishes.papers["pure"] = {4, day(0)};
    SittingsRequest request{
        {paper("p1", "pure", 6), paper("set-1", "pure", 1), paper("set-2", "pure", 1)}, {}, {}};
    request.drawn = {"set-1", "set-2"};
    CHECK(sittings_ahead(candidate, request, day(0)).papers.back().allowance == Seconds(6 * 10 * 72));
}

TEST_CASE("where none is on file to go by it is an hour and a half and ten questions") {
    const PaperToSit usual = wished(1, {}).papers.front();
    CHECK(usual.allowance == Seconds(5400));
    CHECK(usual.piece.work == Seconds(8100));
    CHECK(usual.piece.expected.retries == seconds({472, 473, 472, 473}));
}

TEST_CASE("a paper that is not on file has the extra time of the latest sitting, to the nearest second") {
    const auto of_length = [](int length, int percent) {
        const auto one =
            std::make_shared<const Paper>(PaperHead{"p", "", "pure", Seconds(length), RetryBy::question},
                                          std::vector<Part>{{"1", Marks(9), "", ""}});
        return wished(2, {one}, ExtraTime(percent)).papers.back().allowance;
    };
    CHECK(of_length(600, 25) == Seconds(750));
    CHECK(of_length(601, 25) == Seconds(751)); // 751.25
    CHECK(of_length(601, 50) == Seconds(902)); // 901.5
}

TEST_CASE("time to mark is rounded up to a second") {
    Candidate candidate;
    const auto work = [&](int percent) {
        candidate.wishes.marking_percent = percent;
        return ahead_of(candidate, {paper("p", "pure", 4)}).papers.front().piece.work; // 2880 s
    };
    CHECK(work(0) == Seconds(2880));
    CHECK(work(33) == Seconds(2880 + 951)); // 950.4
    CHECK(work(100) == Seconds(2 * 2880));
}

TEST_CASE("a piece is foreseen for each question that may be missed, one at least, and none of no time") {
    const auto expected = [](double share) {
        return ahead_of({}, {paper("p", "pure", 5)}, day(0), share).papers.front().piece.expected.retries;
    };
    CHECK(expected(0).empty());
    CHECK(expected(0.05) == seconds({180}));
    CHECK(expected(0.3) == seconds({540, 540})); // 1.5 questions
    CHECK(expected(1) == seconds({720, 720, 720, 720, 720}));
}

TEST_CASE("without an exam each paper has a week, its middle first, beside all weeks and those after") {
    const SittingsAhead ahead = ahead_of({}, papers(3, "pure"));
    CHECK(days_of(ahead.papers[0]) == "1-5: 0-76");
    CHECK(days_of(ahead.papers[1]) == "8-12: 0-76");
    CHECK(days_of(ahead.papers[2]) == "15-19: 0-76");
    CHECK(wished(365, {}).papers.size() == 200);
}

TEST_CASE("without an exam no paper is put past the last day that is accepted") {
    const SittingsAhead ahead = ahead_of({}, papers(3, "pure"), latest_day - Days{10});
    for (const PaperToSit& paper : ahead.papers) {
        CHECK(paper.piece.spans.size() == 1);
        CHECK(paper.piece.spans.back().first == latest_day - Days{10});
        CHECK(paper.piece.spans.back().last == latest_day);
    }
}

TEST_CASE("before an exam papers share the days up to the last useful one, the rest coming last") {
    Candidate candidate;
    candidate.exams = {{"Pure", day(60), "pure"}};
    const SittingsAhead ahead = ahead_of(candidate, papers(2, "pure"));
    CHECK(last_useful_sitting(day(60)) == day(38));
    CHECK(days_of(ahead.papers[0]) == "4-14: 0-38 39-59");
    CHECK(days_of(ahead.papers[1]) == "24-33: 0-38 39-59");
    for (const PaperToSit& paper : ahead.papers) {
        CHECK(paper.last_useful == day(38));
        CHECK(paper.piece.expected.exam == day(60));
        CHECK(paper.piece.never_on == std::vector<Day>{day(60)});
    }
}

TEST_CASE("where it is too late for the misses to come round papers share the days up to the exam") {
    Candidate candidate;
    const auto days_before = [&](int exam) {
        candidate.exams = {{"Pure", day(exam), "pure"}};
        const PaperToSit paper = ahead_of(candidate, papers(1, "pure")).papers.front();
        return days_of(paper);
    };
    CHECK(days_before(23) == "0-1: 0-1 2-22");
    CHECK(days_before(22) == "0-0: 0-0 1-21");
    CHECK(days_before(21) == "5-15: 0-20");
    CHECK(days_before(10) == "2-7: 0-9");
    CHECK(days_before(1) == "0-0: 0-0");
}

TEST_CASE("more papers than days have a day each all the same") {
    Candidate candidate;
    candidate.exams = {{"Pure", day(24), "pure"}};
    const SittingsAhead ahead = ahead_of(candidate, papers(5, "pure"));
    std::string days;
    for (const PaperToSit& paper : ahead.papers)
        days += text_of(*paper.piece.near) + " ";
    CHECK(days == "0-0 0-0 1-1 1-1 2-2 ");
}

TEST_CASE("a subject with an exam ahead is listed without a paper, one whose exams have passed is not") {
    Candidate candidate;
    candidate.exams = {
        {"Pure", day(9), "pure"}, {"Mechanics", day(0), "mechanics"}, {"Latin", day(-3), "latin"}};
    CHECK(subjects_of(ahead_of(candidate, {})) == "pure:0 ");
    candidate.exams = {{"All", day(9), ""}};
    CHECK(subjects_of(ahead_of(candidate, {})) == ":0 ");
    CHECK(subjects_of(ahead_of(candidate, papers(2, "pure"))) == "pure:2 ");
    candidate.exams = {{"All", day(0), ""}};
    CHECK(subjects_of(ahead_of(candidate, {})).empty());
    candidate.exams = {{"Pure", day(40), "pure"}, {"Latin", day(30), "latin"}};
    CHECK(subjects_of(ahead_of(candidate, papers(1, "applied"))) == "latin:0 pure:0 applied:1 ");
}

TEST_CASE("subjects with the same exam stand by name, and papers of the same days in that order") {
    Candidate candidate;
    candidate.exams = {{"All", day(40), ""}};
    Papers on_file;
    for (const char* subject : {"pure", "latin", "applied", "mechanics"})
        on_file.push_back(paper(subject, subject));
    CHECK(subjects_of(ahead_of(candidate, on_file)) == "applied:1 latin:1 mechanics:1 pure:1 ");
    CHECK(names_of(ahead_of(candidate, on_file)) == "applied latin mechanics pure");
    candidate.exams.clear();
    CHECK(subjects_of(ahead_of(candidate, on_file)) == "applied:1 latin:1 mechanics:1 pure:1 ");
}

TEST_CASE("papers sat since the wish are among those wished, and the others keep their numbers") {
    Candidate candidate;
    candidate.wishes.papers["pure"] = {3, day(0)};
    CHECK(names_of(ahead_of(candidate, {})) == "pure paper 1 pure paper 2 pure paper 3");
    sit(candidate, paper("before", "pure"), day(-1), 5);
    sit(candidate, paper("other", "mechanics"), day(0), 5);
    sit(candidate, paper("first", "pure"), day(0), 5);
    CHECK(names_of(ahead_of(candidate, {})) == "pure paper 2 pure paper 3");
    CHECK(names_of(ahead_of(candidate, papers(4, "pure"))) == "pure-1 pure-2");
    candidate.wishes.papers["pure"] = {1, day(0)};
    CHECK(names_of(ahead_of(candidate, papers(4, "pure"))).empty());
}

TEST_CASE("a paper that was sat, or is on the desk, is not sat again") {
    Candidate candidate;
    const Papers three = papers(3, "pure");
    sit(candidate, three[1], day(-5), 5);
    CHECK(names_of(ahead_of(candidate, three)) == "pure-1 pure-3");
    CHECK(names_of(sittings_ahead(candidate, {three, {"pure-1"}, {}}, day(0))) == "pure-3");
}

TEST_CASE("a paper with questions met in another is sat after the unseen ones, and not once all were met") {
    Candidate candidate;
    const Papers three = papers(3, "pure");
    const std::size_t all = three[0]->questions().size();
    SittingsRequest request{three, {}, {}};
    request.met = {{"pure-1", all - 1}};
    const SittingsAhead in_part = sittings_ahead(candidate, request, day(0));
    CHECK(names_of(in_part) == "pure-2 pure-3 pure-1");
    CHECK(in_part.papers[2].met == all - 1);
    CHECK(in_part.papers[0].met == 0);
    candidate.wishes.papers["pure"] = {2, day(0)};
    CHECK(names_of(sittings_ahead(candidate, request, day(0))) == "pure-2 pure-3");
    candidate.wishes = {};
    request.met = {{"pure-1", all}};
    CHECK(names_of(sittings_ahead(candidate, request, day(0))) == "pure-2 pure-3");
    candidate.steered_work = {{WorkPurpose::sit, "pure", "pure-1", {day(9)}}};
    CHECK(names_of(sittings_ahead(candidate, request, day(0))) == "pure-2 pure-3 pure-1");
}

TEST_CASE("a paper has its day on file, and is no work for the day of an exam") {
    Candidate candidate;
    candidate.exams = {{"Pure", day(60), "pure"}, {"Latin", day(30), "latin"}};
    candidate.planned = {{WorkPurpose::sit, "pure", "pure-2", 0, day(25), Seconds(5400)}};
    const auto ahead = ahead_of(candidate, papers(2, "pure")).papers;
    CHECK_FALSE(ahead[0].piece.kept_day);
    CHECK(ahead[1].piece.kept_day == day(25));
    CHECK(ahead[1].piece.never_on == std::vector<Day>{day(60), day(30)});
}

TEST_CASE("the missed share is that of the latest sittings, by the time of the questions") {
    Candidate candidate;
    const auto long_one = paper("p1", "pure", 4);
    sit(candidate, long_one, day(0), 0);
    sit(candidate, long_one, day(1), 3); // one of four
    sit(candidate, paper("p2", "pure", 1), day(2), 0);
    CHECK(missed_share({candidate}, RetryRule()) == 2.0 / 5);
    Candidate other;
    sit(other, paper("p2", "pure", 5), day(2), 5);
    CHECK(missed_share({candidate, other}, RetryRule()) == 2.0 / 10);
    CHECK_FALSE(missed_share({Candidate{}}, RetryRule()).has_value());
}

TEST_CASE("a paper of others is sat where the candidate asked for it, and not otherwise") {
    const Papers on_file{paper("own-1", "pure"), paper("pure-1", "pure")};
    const auto ahead = [&](const Candidate& candidate) {
        return names_of(sittings_ahead(candidate, {on_file, {}, {}, {"own-1"}}, day(0)));
    };
    CHECK(ahead({}) == "pure-1");
    Candidate asking;
    asking.steered_work.push_back({WorkPurpose::sit, "pure", "own-1", {day(3), std::nullopt}});
    CHECK(ahead(asking) == "own-1 pure-1");
    asking.steered_work[0].steering.wanted = day(-1); // has passed
    CHECK(ahead(asking) == "pure-1");
}
