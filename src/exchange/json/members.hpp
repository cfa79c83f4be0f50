#pragma once

#include "inkturn/retry/candidate.hpp"
#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A candidate and the names of the classes they are in.
struct CandidateInClasses {
    Candidate candidate;
    std::vector<std::string> classes;
};

std::string json_of(const std::vector<CandidateInClasses>& candidates);
std::string json_of(const std::vector<ClassOnFile>& classes);
std::string json_of_members(const std::string& class_name, const std::vector<Candidate>& members);

} // namespace inkturn
