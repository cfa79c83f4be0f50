// refused: remove_paper
#include <inkturn/store/change.hpp>

void remove(inkturn::Store::Change& change) {
#ifdef WRONG
    change.store().remove_paper("pure-1");
#else
    change.remove_paper("pure-1");
#endif
}
