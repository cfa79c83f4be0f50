#include "exchange/json/json.hpp"

#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/codes.hpp"

#include <algorithm>
#include <cmath>

namespace inkturn {
namespace {

std::int64_t number(SittingId id) {
    return static_cast<std::int64_t>(id);
}

Json json_of(const Totals& sum) {
    return {{"max", sum.max.count()},
            {"in_time", sum.in_time.count()},
            {"overtime", sum.overtime.count()},
            {"corrected", sum.corrected.count()},
            {"unearned", sum.unearned().count()}};
}

Json json_of(const Figure& figure) {
    return figure.has_value() ? Json(figure.value()) : Json(nullptr);
}

Json json_of(const std::string& label, const PartAnalysis& part) {
    return {{"part", label},
            {"max", part.max.count()},
            {"mean", json_of(part.mean)},
            {"facility", json_of(part.facility)},
            {"part_rest", json_of(part.rest_correlation)},
            {"alpha_without", json_of(part.alpha_without)},
            {"discrimination", json_of(part.discrimination)},
            {"not_attempted", json_of(part.not_attempted)},
            {"overtime_share", json_of(part.overtime)},
            {"ran_out", part.ran_out}};
}

Json member_json(const Candidate& candidate) {
    Json latest = nullptr;
    if (!candidate.sittings.empty())
        latest = iso(candidate.sittings.back().sitting.day);
    return {{"candidate", candidate.code}, {"sittings", candidate.sittings.size()}, {"latest", latest}};
}

} // namespace

Json json_of(const Part& part, const PartMarks& marks) {
    Json json{{"part", part.label},
              {"max", part.max.count()},
              {"attempted", marks.attempted},
              {"in_time", marks.in_time.count()},
              {"overtime", marks.overtime.count()},
              {"corrected", marks.corrected.count()},
              {"reason", marks.reason ? Json(name(*marks.reason)) : Json(nullptr)}};
    if (marks.by_code)
        json["codes"] = codes_text(part, *marks.by_code);
    return json;
}

double thousandths(double value) {
    return std::round(value * 1000) / 1000;
}

Json json_of_parts(const Paper& paper) {
    Json parts = Json::array();
    for (const Part& part : paper.parts())
        parts.push_back({{"part", part.label},
                         {"marks", part.max.count()},
                         {"topic", part.topic},
                         {"codes", part.codes}});
    return parts;
}

Json json_of(const Paper& paper) {
    return {{"paper", paper.id()},
            {"title", paper.title()},
            {"subject", paper.subject()},
            {"marks", paper.marks().count()},
            {"allowance_seconds", allowance(paper).count()},
            {"retry_by", name(paper.retry_by())},
            {"parts", json_of_parts(paper)}};
}

Json json_of(const std::vector<PaperOnFile>& papers) {
    Json list = Json::array();
    for (const auto& [paper, sittings] : papers)
        list.push_back({{"paper", paper->id()},
                        {"title", paper->title()},
                        {"subject", paper->subject()},
                        {"marks", paper->marks().count()},
                        {"parts", paper->parts().size()},
                        {"allowance_seconds", allowance(*paper).count()},
                        {"sittings", sittings}});
    return {{"papers", std::move(list)}};
}

Json json_of(const Retry& retry) {
    Json parts = Json::array();
    for (const std::size_t part : retry.asked().parts)
        parts.push_back(retry.paper->parts()[part].label);
    Json window = nullptr;
    if (retry.window)
        window = {{"opens", iso(retry.window->opens)}, {"closes", iso(retry.window->closes)}};
    return {{"id", to_text(retry.id)},
            {"candidate", retry.candidate},
            {"paper", retry.paper->id()},
            {"question", retry.id.question},
            {"parts", std::move(parts)},
            {"marks", retry.asked().marks.count()},
            {"missed", retry.missed.count()},
            {"allowance_seconds", retry.allowance.count()},
            {"dropped_on", iso(retry.dropped_on)},
            {"window", std::move(window)},
            {"day", retry.day ? Json(iso(*retry.day)) : Json(nullptr)},
            {"turn", retry.id.turn},
            {"squeezed", retry.window && retry.window->squeezed},
            {"late", retry.late}};
}

Json json_of(const std::vector<Retry>& retries) {
    Json list = Json::array();
    for (const Retry& retry : retries)
        list.push_back(json_of(retry));
    return list;
}

Json json_of(const LostByReason& lost) {
    Json json;
    for (const Reason reason : all_reasons)
        json[std::string(name(reason))] = lost.of(reason).count();
    json["unstated"] = lost.unstated.count();
    return json;
}

Json json_of(const SittingRecord& record, const Candidate& candidate, const std::vector<Retry>& retries) {
    const Paper& paper = *record.paper;
    Json parts = Json::array();
    for (std::size_t i = 0; i < paper.parts().size(); ++i)
        parts.push_back(json_of(paper.parts()[i], record.sitting.parts[i]));
    Json own_retries = Json::array();
    for (const Retry& retry : retries)
        if (retry.id.sitting == record.id)
            own_retries.push_back(json_of(retry));
    const auto clock = clock_of(paper, record.sitting);
    return {{"sitting", number(record.id)},
            {"candidate", candidate.code},
            {"paper", paper.id()},
            {"date", iso(record.sitting.day)},
            {"marks", json_of(totals(paper, record.sitting.parts))},
            {"allowance_seconds", allowance(paper, record.sitting.extra_time).count()},
            {"lost", json_of(lost_by_reason(paper, record.sitting.parts))},
            {"parts", std::move(parts)},
            {"clock", clock ? json_of(*clock) : Json(nullptr)},
            {"retries", std::move(own_retries)}};
}

Json json_of(const Candidate& candidate, const std::vector<Retry>& retries,
             const std::vector<Script>& scripts) {
    Json sittings = Json::array();
    for (const SittingRecord& record : candidate.sittings) {
        const auto open = std::count_if(retries.begin(), retries.end(),
                                        [&](const Retry& retry) { return retry.id.sitting == record.id; });
        sittings.push_back({{"sitting", number(record.id)},
                            {"candidate", candidate.code},
                            {"paper", record.paper->id()},
                            {"date", iso(record.sitting.day)},
                            {"marks", json_of(totals(*record.paper, record.sitting.parts))},
                            {"open_retries", open}});
    }
    Json at_desk = Json::array();
    for (const Script& script : scripts)
        at_desk.push_back(json_of(script));
    return {{"sittings", std::move(sittings)}, {"scripts", std::move(at_desk)}};
}

Json json_of(const std::vector<PictureOnFile>& pictures) {
    Json list = Json::array();
    for (const PictureOnFile& picture : pictures)
        list.push_back({{"picture", static_cast<std::int64_t>(picture.id)},
                        {"paper", picture.paper},
                        {"question", picture.question},
                        {"shows", name(picture.shows)},
                        {"kind", name(picture.kind)},
                        {"width", picture.width},
                        {"height", picture.height},
                        {"bytes", picture.bytes}});
    return {{"pictures", std::move(list)}};
}

Json json_of_class_retries(DaySpan span, const std::vector<CandidateAsked>& candidates,
                           std::size_t without_day) {
    Json list = Json::array();
    for (const auto& [candidate, within] : candidates)
        list.push_back({{"candidate", candidate},
                        {"asked_seconds", within.asked.count()},
                        {"retries", json_of(within.retries)}});
    return {{"from", iso(span.first)},
            {"to", iso(span.last)},
            {"candidates", std::move(list)},
            {"without_day", without_day}};
}

Json json_of(const Paper& paper, const PaperAnalysis& analysis) {
    Json parts = Json::array();
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        parts.push_back(json_of(paper.parts()[i].label, analysis.parts[i]));
    return {{"paper", paper.id()},
            {"candidates", analysis.candidates},
            {"parts", std::move(parts)},
            {"total",
             {{"max", analysis.max.count()},
              {"mean", json_of(analysis.mean)},
              {"sd", json_of(analysis.deviation)},
              {"variance", json_of(analysis.variance)},
              {"lower_quartile", json_of(analysis.lower_quartile)},
              {"median", json_of(analysis.median)},
              {"upper_quartile", json_of(analysis.upper_quartile)},
              {"alpha", json_of(analysis.alpha)},
              {"sem", json_of(analysis.standard_error)},
              {"ran_out", analysis.ran_out}}}};
}

Json json_of(const std::vector<ExamOnFile>& exams) {
    Json list = Json::array();
    for (const auto& [id, exam] : exams)
        list.push_back({{"exam", static_cast<std::int64_t>(id)},
                        {"title", exam.title},
                        {"date", iso(exam.day)},
                        {"subject", exam.subject.empty() ? Json(nullptr) : Json(exam.subject)}});
    return {{"exams", std::move(list)}};
}

Json json_of(const std::vector<ClassOnFile>& classes) {
    Json list = Json::array();
    for (const auto& [name, members] : classes)
        list.push_back({{"class", name}, {"candidates", members}});
    return {{"classes", std::move(list)}};
}

Json json_of(const std::vector<CandidateInClasses>& candidates) {
    Json list = Json::array();
    for (const auto& [candidate, classes] : candidates) {
        Json of_candidate = member_json(candidate);
        of_candidate["classes"] = classes;
        list.push_back(std::move(of_candidate));
    }
    return {{"candidates", std::move(list)}};
}

Json json_of_members(const std::string& class_name, const std::vector<Candidate>& members) {
    Json list = Json::array();
    for (const Candidate& member : members)
        list.push_back(member_json(member));
    return {{"class", class_name}, {"candidates", std::move(list)}};
}

Json json_of_availability(const std::string& candidate, const Availability& availability) {
    Json week = Json::object();
    for (unsigned i = 0; i < availability.week.size(); ++i)
        week[std::string(weekday_name(i))] = availability.week[i].count();
    Json dates = Json::array();
    for (const auto& [day, available] : availability.dates)
        dates.push_back({{"date", iso(day)}, {"available_seconds", available.count()}});
    return {{"candidate", candidate},
            {"week_seconds", std::move(week)},
            {"dates", std::move(dates)},
            {"free_days", availability.free_days}};
}

Json json_of_pace(const Paper& paper, ExtraTime extra) {
    const std::vector<Seconds> allowances = part_allowances(paper, extra);
    const std::vector<Seconds> times = checkpoints(paper, extra);
    Json parts = Json::array();
    for (std::size_t i = 0; i < paper.parts().size(); ++i)
        parts.push_back({{"part", paper.parts()[i].label},
                         {"marks", paper.parts()[i].max.count()},
                         {"allowance_seconds", allowances[i].count()},
                         {"by_seconds", times[i].count()}});
    return {{"paper", paper.id()},
            {"marks", paper.marks().count()},
            {"allowance_seconds", allowance(paper, extra).count()},
            {"parts", std::move(parts)}};
}

Json json_of_outcome(const RetryId& id, bool got, const std::optional<Retry>& next) {
    return {
        {"id", to_text(id)}, {"got", got}, {"secured", got}, {"next", next ? json_of(*next) : Json(nullptr)}};
}

} // namespace inkturn
