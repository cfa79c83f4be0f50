#include "exchange/csv/facts.hpp"

#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"

#include <map>
#include <string_view>

namespace inkturn {
namespace {

/// Reads the rows of a file of facts.
class FactRows {
  public:
    FactRows(HeadedTable& table, const FactsContext& met, std::vector<Fact>& facts)
        : table_(table), met_(met), facts_(facts) {
        for (const Fact& fact : met.on_file)
            if (fact.subject == met.subject)
                on_file_[fact.prompt] = &fact;
    }

    void read() {
        const auto columns = table_.match({"prompt", "answer", "topic"}, 2);
        if (!columns[0] || !columns[1])
            return;
        prompt_ = *columns[0];
        answer_ = *columns[1];
        topic_ = columns[2];
        while (table_.next())
            read_row();
        if (facts_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no facts below the header: give each fact a row");
    }

  private:
    void read_row() {
        Fact fact{FactId{}, without_blanks(table_.cell(prompt_)), without_blanks(table_.cell(answer_)),
                  topic_ ? without_blanks(table_.cell(*topic_)) : "", met_.subject};
        const bool is_named = table_.in_cell(prompt_, [&] {
            check_prompt(fact.prompt);
            check_is_new(fact.prompt);
        });
        table_.in_cell(answer_, [&] { check_answer(fact.answer); });
        if (topic_)
            table_.in_cell(*topic_, [&] {
                check_topic(fact.topic);
                check_is_visible(fact.topic, "topic '" + fact.topic + "'");
            });
        if (is_named && !met_.replace)
            meet(fact);
        facts_.push_back(std::move(fact));
    }

    void check_is_new(const std::string& prompt) {
        const auto [first, is_new] = lines_.emplace(prompt, table_.line());
        if (!is_new)
            throw Error("the prompt '" + prompt + "' appears twice, first in " +
                        table_.row_text(first->second) + ": give each fact one row");
    }

    void meet(const Fact& fact) {
        const auto known = on_file_.find(fact.prompt);
        if (known == on_file_.end() || match_fact(*known->second, fact) != FactMatch::contradicted)
            return;
        const Fact& here = *known->second;
        const bool is_answer = here.answer != fact.answer;
        table_.report(is_answer ? answer_ : *topic_,
                      "the fact '" + fact.prompt + "' is on file with the " +
                          (is_answer ? "answer '" + here.answer : "topic '" + here.topic) +
                          "': correct one of the two, or use --replace");
    }

    HeadedTable& table_;
    const FactsContext& met_;
    std::vector<Fact>& facts_;
    std::map<std::string_view, const Fact*> on_file_; ///< of the subject, by prompt
    std::map<std::string, std::size_t> lines_;        ///< by prompt
    std::size_t prompt_ = 0;
    std::size_t answer_ = 0;
    std::optional<std::size_t> topic_;
};

} // namespace

std::vector<Fact> read_facts_rows(Rows& rows, const FactsContext& met, ProblemList& problems) {
    std::vector<Fact> facts;
    try {
        HeadedTable table(rows, problems);
        FactRows(table, met, facts).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return facts;
}

} // namespace inkturn
