using System.Text.Json.Serialization;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

/// <summary>What the program sends to the solver's process, as one JSON value.</summary>
internal sealed record OrderRequest(OrderProblem Problem, OrderSequence? Hint, OrderLimits Limits);

[JsonSourceGenerationOptions(NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, UseStringEnumConverter = true)]
[JsonSerializable(typeof(OrderRequest))]
[JsonSerializable(typeof(OrderAnswer))]
[JsonSerializable(typeof(OrderProblem))]
internal sealed partial class OrderJson : JsonSerializerContext;
