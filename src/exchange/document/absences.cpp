#include "exchange/document/absences.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

bool is_class_among(const std::vector<std::string>& classes, const std::string& name) {
    return std::find(classes.begin(), classes.end(), name) != classes.end();
}

} // namespace

std::vector<Absence> exported_absences(const Store& store, const std::string& candidate,
                                       const std::vector<std::string>& classes) {
    std::vector<Absence> absences = PapersOnFile::absences(store, candidate);
    absences.erase(
        std::remove_if(absences.begin(), absences.end(),
                       [&](const Absence& absence) { return !is_class_among(classes, absence.of_class); }),
        absences.end());
    return absences;
}

void add_absences(const std::vector<Absence>& absences, Json& candidate) {
    for (const Absence& absence : absences)
        candidate["absences"].push_back(
            {{"class", absence.of_class}, {"paper", absence.paper}, {"date", iso(absence.day)}});
}

std::vector<Absence> read_absences(const JsonValue& value, const PapersById& papers,
                                   const std::vector<std::string>& classes, Day today) {
    std::set<std::tuple<Day, std::string, std::string>> known;
    value.each_element([&](const JsonValue& element) {
        element.check_keys({"class", "paper", "date"});
        const std::string name = element.at("class").text();
        if (!is_class_among(classes, name))
            element.at("class").refuse("class " + name + " is not one of the candidate's");
        const Day day = read_past_day(element.at("date"), today, "an absence");
        if (!known.emplace(day, get_paper(papers, element.at("paper"))->id(), name).second)
            element.refuse("the absence appears twice");
    });
    std::vector<Absence> absences;
    for (const auto& [day, paper, of_class] : known)
        absences.push_back({of_class, paper, day});
    return absences;
}

void take_absence(Store::Change& change, const std::string& code, const Absence& in_file, Merge& merge) {
    const auto paper = change.store().find_paper(in_file.paper);
    if (PapersOnFile::absent(change.store(), in_file.of_class, *paper, in_file.day).count(code) > 0)
        return;
    PapersOnFile(change).note_absent(in_file.of_class, *paper, in_file.day, code);
    ++merge.absences_added;
}

} // namespace inkturn
