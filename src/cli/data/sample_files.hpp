#pragma once

namespace inkturn::sample_files {

// The demo's files, compiled in, so that the sample needs nothing beside the program.
extern const char* const paper;
extern const char* const class_marks;
extern const char* const second_paper;
extern const char* const boundaries;

} // namespace inkturn::sample_files
