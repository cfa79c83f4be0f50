#include "exchange/json/members.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {
namespace {

Json value_of_member(const CandidateOnFile& candidate) {
    return {{"candidate", candidate.code},
            {"sittings", candidate.sittings},
            {"latest", candidate.latest ? Json(iso(*candidate.latest)) : Json(nullptr)}};
}

} // namespace

std::string json_of(const std::vector<CandidateOnFile>& candidates) {
    Json list = Json::array();
    for (const CandidateOnFile& candidate : candidates) {
        Json of_candidate = value_of_member(candidate);
        of_candidate["classes"] = candidate.classes;
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

std::string json_of_members(const std::string& class_name, const std::vector<CandidateOnFile>& members) {
    Json list = Json::array();
    for (const CandidateOnFile& member : members)
        list.push_back(value_of_member(member));
    return text_of({{"class", class_name}, {"candidates", std::move(list)}});
}

} // namespace inkturn
