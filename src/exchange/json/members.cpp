#include "exchange/json/members.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {
namespace {

Json value_of_member(const Candidate& candidate) {
    Json latest = nullptr;
    if (!candidate.sittings.empty())
        latest = iso(candidate.sittings.back().sitting.day);
    return {{"candidate", candidate.code}, {"sittings", candidate.sittings.size()}, {"latest", latest}};
}

} // namespace

std::string json_of(const std::vector<CandidateInClasses>& candidates) {
    Json list = Json::array();
    for (const auto& [candidate, classes] : candidates) {
        Json of_candidate = value_of_member(candidate);
        of_candidate["classes"] = classes;
        if (candidate.extra_time)
            of_candidate["extra_time"] = candidate.extra_time->percent();
        list.push_back(std::move(of_candidate));
    }
    return text_of({{"candidates", std::move(list)}});
}

std::string json_of(const std::vector<ClassOnFile>& classes) {
    Json list = Json::array();
    for (const auto& [name, members] : classes)
        list.push_back({{"class", name}, {"candidates", members}});
    return text_of({{"classes", std::move(list)}});
}

std::string json_of_members(const std::string& class_name, const std::vector<Candidate>& members) {
    Json list = Json::array();
    for (const Candidate& member : members)
        list.push_back(value_of_member(member));
    return text_of({{"class", class_name}, {"candidates", std::move(list)}});
}

} // namespace inkturn
