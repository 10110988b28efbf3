using Nursery.Benchmarks;

// Each benchmark times the product against a plain baseline in the same run: what counts is the ratio, not the seconds.
FirstFitBenchmark.Run(batches: 400, rounds: 5);
