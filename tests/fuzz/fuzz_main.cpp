// One program for all targets: `inkturn_fuzz --target=NAME [libFuzzer's options] FOLDER...`.

#include "fuzz/targets.hpp"
#include "inkturn/base/error.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace inkturn::fuzz {

void insist(bool holds) {
    if (!holds)
        std::abort();
}

namespace {

struct Target {
    std::string_view name;
    void (*take)(std::string_view input);
};

constexpr std::array<Target, 14> targets{{{"marks", marks_entry},
                                          {"dates", dates},
                                          {"events", events},
                                          {"paper", paper_csv},
                                          {"class", class_csv},
                                          {"wishes", wishes_csv},
                                          {"boundaries", boundaries_csv},
                                          {"facts", facts_csv},
                                          {"retried", retried_csv},
                                          {"workbook", workbook},
                                          {"export", export_json},
                                          {"picture", picture},
                                          {"words", words_of_a_pdf},
                                          {"store", store_file}}};

const Target* chosen = nullptr;

} // namespace
} // namespace inkturn::fuzz

extern "C" int LLVMFuzzerInitialize(int* argc, char*** argv) {
    using namespace inkturn::fuzz;
    constexpr std::string_view option = "--target=";
    for (int i = 1; i < *argc; ++i)
        for (const Target& target : targets)
            if (const std::string_view word = (*argv)[i];
                word.substr(0, option.size()) == option && word.substr(option.size()) == target.name)
                chosen = &target;
    if (chosen)
        return 0;
    std::fputs("name a target, as --target=NAME:", stderr);
    for (const Target& target : targets)
        std::fprintf(stderr, " %s", target.name.data());
    std::fputs("\n", stderr);
    std::exit(2);
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        inkturn::fuzz::chosen->take({reinterpret_cast<const char*>(data), size});
    } catch (const inkturn::Error& error) {
        inkturn::fuzz::insist(*error.what() != '\0');
    }
    return 0;
}
