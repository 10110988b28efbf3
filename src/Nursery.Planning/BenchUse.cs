namespace Nursery.Planning;

public enum BenchUse
{
    Heat,
    Warm,
    Cool,
    Hardening,
}
