// Feeds csv_fuzz.cpp without a fuzzing engine: `csv_fuzz [ROUNDS [SEED]]` changes a few good files at random
// places, the same way on every run with the same seed.

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

using namespace std::string_literals;

namespace {

const std::array<std::string, 7> files{
    "candidate,date,total,1,2a\nmax,,9,5,4\nK07,2026-11-20,3,2+1,-\nK08,,,,\nK09,,5,3,2+0+1:slip\n",
    "candidate;Q1;2 (a)\r\n\"K;07\";5;0\r\n\"K\"\"08\";4:method;4\r\n",
    "candidate,paper,date,part,in_time\nK07,pure-1,2026-11-20,1,3\nK07,pure-1,2026-11-20,2a,-\n",
    "candidate\tpaper\tdate\tpart\tin_time\tovertime\tcorrected\treason\tmax\n"
    "K07\tnew-2\t2026-11-20\t1\t3\t1\t\tslip\t6\nK08\tpure-1\t2026-11-20\tQ1\t-\t0\t2\t\t5\n"
    "K07\tnew-2\t2026-11-20\t7b\t0\t\t\t\t2\nK08\tpure-1\t2026-11-20\t2A\t4\t\t\t\t\n",
    "part,marks,topic,codes\n1,5,vectors,M1 A1 B3\n2a,4,,\n",
    "\xEF\xBB\xBF"
    "candidate,1,2a\nZo\xC3\xAB,3,\"4\"\n\xE2\x82\xAC,1,2\n",
    "\xFF\xFE"
    "c\0a\0n\0d\0i\0d\0a\0t\0e\0,\0001\0,\0002\0a\0\n\0\xE9\0,\0003\0,\0-\0\n\0"s};

const std::array<std::string, 22> pieces{",",
                                         ";",
                                         "\t",
                                         "\n",
                                         "\r",
                                         "\r\n",
                                         "\"",
                                         "\"\"",
                                         std::string(1, '\0'),
                                         "\xC3",
                                         "\xFF",
                                         "-",
                                         "+",
                                         ":",
                                         "\xE2\x82\xAC",
                                         "max",
                                         "part,in_time",
                                         "999",
                                         "2026-02-30",
                                         "010",
                                         "\xEF\xBB\xBF",
                                         " "};

class Mutator {
  public:
    explicit Mutator(unsigned long seed) : random_(seed) {}

    std::string next() {
        std::string text = files[pick(files.size())];
        for (std::size_t changes = pick(6); changes > 0; --changes)
            change(text);
        return static_cast<char>(pick(256)) + text;
    }

  private:
    std::size_t pick(std::size_t below) { return static_cast<std::size_t>(random_() % below); }

    void change(std::string& text) {
        const std::size_t at = pick(text.size() + 1);
        const std::size_t length = pick(12);
        switch (pick(5)) {
        case 0:
            text.insert(at, pieces[pick(pieces.size())]);
            break;
        case 1:
            text.erase(at, length);
            break;
        case 2:
            text.insert(at, text.substr(pick(text.size() + 1), length * 4));
            break;
        case 3:
            text.resize(at);
            break;
        default:
            if (at < text.size())
                text[at] = static_cast<char>(pick(256));
        }
    }

    std::mt19937_64 random_;
};

} // namespace

int main(int argc, char** argv) {
    const unsigned long rounds = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 20000;
    Mutator mutator(argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 1);
    for (unsigned long i = 0; i < rounds; ++i) {
        const std::string input = mutator.next();
        LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
    }
    std::printf("%lu files read\n", rounds);
}
