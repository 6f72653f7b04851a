//! What a bar stocks: ingredients, glasses, families, allergens, markets, each value with its source.
