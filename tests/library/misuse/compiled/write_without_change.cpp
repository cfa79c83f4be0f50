// refused: add_paper
#include <inkturn/store/change.hpp>

void put(inkturn::Store& store, const inkturn::Paper& paper) {
#ifdef WRONG
    store.add_paper(paper);
#else
    inkturn::Store::Change change(store);
    change.add_paper(paper);
    change.commit();
#endif
}
