#pragma once

#include "inkturn/printed/page.hpp"

#include <string>
#include <utility>
#include <vector>

/// Pages on which a test sets text: each character is half as wide as its type is high.
class Sheets {
  public:
    explicit Sheets(double width = 595, double height = 842) : width_(width), height_(height) {}

    const std::vector<inkturn::PrintedPage>& pages() const { return pages_; }
    double type = 11; ///< points
    /// Of the last page.
    std::vector<inkturn::PrintedWord>& words() { return pages_.back().words; }

    void turn() { pages_.push_back({width_, height_, {}}); }

    /// Text from an edge on; `top` is the upper edge of its line.
    void set(double left, double top, const std::string& text) {
        for (const std::string& word : words_of(text)) {
            const double right = left + width_of(word);
            pages_.back().words.push_back({word, {left, top, right, top + type}});
            left = right + type / 2;
        }
    }

    /// Text that ends at an edge.
    void set_to(double right, double top, const std::string& text) { set(right - width_of(text), top, text); }

    /// Words on one page in another order, as a document may have them.
    template <typename Random>
    void shuffle(Random& random) {
        for (inkturn::PrintedPage& page : pages_)
            for (std::size_t i = page.words.size(); i > 1; --i)
                std::swap(page.words[i - 1], page.words[random() % i]);
    }

  private:
    static std::vector<std::string> words_of(const std::string& text) {
        std::vector<std::string> words(1);
        for (const char c : text) {
            if (c != ' ')
                words.back() += c;
            else if (!words.back().empty())
                words.emplace_back();
        }
        if (words.back().empty())
            words.pop_back();
        return words;
    }
    double width_of(const std::string& text) const { return static_cast<double>(text.size()) * type / 2; }

    double width_;
    double height_;
    std::vector<inkturn::PrintedPage> pages_;
};
