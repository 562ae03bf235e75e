#pragma once

#include <cstdio>
#include <memory>

#include <pocketsphinx.h>
#include <sphinxbase/feat.h>
#include <sphinxbase/fsg_model.h>
#include <sphinxbase/ngram_model.h>

/// The handles of PocketSphinx, each freed in one place.
namespace panslate {

template <auto Free>
struct SphinxFree {
  template <class T>
  void operator()(T* handle) const noexcept {
    static_cast<void>(Free(handle));
  }
};

/// A list of null transitions is a list of pointers into its graph; only the list is ours.
inline void free_sphinx_list(gnode_t* list) noexcept {
  glist_free(list);
}

/// Features: pointers to frames, to streams, to values.
struct FreeSphinxFeatures {
  void operator()(mfcc_t*** features) const noexcept { feat_array_free(features); }
};

using SphinxFeatures = std::unique_ptr<mfcc_t**[], FreeSphinxFeatures>;
using SphinxConfig = std::unique_ptr<cmd_ln_t, SphinxFree<cmd_ln_free_r>>;
using SphinxDecoder = std::unique_ptr<ps_decoder_t, SphinxFree<ps_free>>;
using SphinxGraph = std::unique_ptr<fsg_model_t, SphinxFree<fsg_model_free>>;
using SphinxWords = std::unique_ptr<ngram_model_t, SphinxFree<ngram_model_free>>;
using SphinxList = std::unique_ptr<gnode_t, SphinxFree<free_sphinx_list>>;

}  // namespace panslate
